using System.Collections;
using System.Reflection;
using System.Runtime.CompilerServices;
using EarHelp.Architecture.Tests.Reading;

namespace EarHelp.Architecture.Tests.Shape;

public sealed class ImmutabilityTests
{
    /// <summary>The bot SDK dictates the shape of its own settings and activities; ASP.NET Core binds forms by setters.</summary>
    static readonly string[] Exempt = ["EarHelp.Web.Bot"];

    [Fact]
    public void A_record_cannot_be_changed_once_made()
    {
        var changeable = Product.Types.Where(IsRecord)
            .SelectMany(t => t.GetProperties(BindingFlags.Public | BindingFlags.Instance | BindingFlags.DeclaredOnly))
            .Where(p => p.SetMethod is { IsPublic: true } set && !IsInit(set))
            .Select(p => $"{p.DeclaringType}.{p.Name}");

        Findings.None(changeable);
    }

    [Fact]
    public void Nothing_public_has_a_field_that_can_be_written()
    {
        var open = Product.Types.Where(t => t.IsVisible && !t.IsEnum)
            .SelectMany(t => t.GetFields(BindingFlags.Public | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly))
            .Where(f => !f.IsInitOnly && !f.IsLiteral)
            .Select(f => $"{f.DeclaringType}.{f.Name}");

        Findings.None(open);
    }

    [Fact]
    public void A_public_collection_cannot_be_changed()
    {
        var changeable = Product.Types.Where(t => t.IsVisible && !Exempt.Contains(t.Namespace))
            .SelectMany(t => t.GetProperties(BindingFlags.Public | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly))
            // A form that was sent is read-only by its type.
            .Where(p => IsCollection(p.PropertyType) && !IsImmutable(p.PropertyType) && p.PropertyType.Name != "IFormCollection")
            .Select(p => $"{p.DeclaringType}.{p.Name} is {p.PropertyType}");

        Findings.None(changeable);
    }

    [Fact]
    public void A_class_that_can_be_inherited_is_abstract()
    {
        var open = Product.Types.Where(t => t.IsClass && t.IsVisible && !t.IsSealed && !t.IsAbstract).Select(t => t.FullName);

        Findings.None(open);
    }

    static bool IsRecord(Type type) =>
        type.GetMethod("<Clone>$") is not null
        || (type.IsValueType && type.GetMethod("PrintMembers", BindingFlags.NonPublic | BindingFlags.Instance) is not null);

    static bool IsInit(MethodInfo set) => set.ReturnParameter.GetRequiredCustomModifiers().Contains(typeof(IsExternalInit));

    static bool IsCollection(Type type) => type != typeof(string) && typeof(IEnumerable).IsAssignableFrom(type);

    static bool IsImmutable(Type type) =>
        type.Namespace is "System.Collections.Immutable" or "System.Collections.Frozen"
        || type.Namespace?.StartsWith("EarHelp", StringComparison.Ordinal) == true;
}
