using EarHelp.Clinic.Staff;

namespace EarHelp.Web.Staff;

/// <summary>An account while ASP.NET Core Identity works on it: Identity changes a user step by step and then has it kept.</summary>
public sealed class StaffMember(StaffAccount account)
{
    public StaffAccount Account { get; internal set; } = account;
}
