using EarHelp.Storage;
using EarHelp.Web.AfterVisit;
using EarHelp.Web.Desk;
using EarHelp.Web.Figures;
using EarHelp.Web.Serving;
using EarHelp.Web.Systems;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.DataProtection.KeyManagement;
using Microsoft.AspNetCore.Identity;

namespace EarHelp.Web.Staff;

/// <summary>Puts the staff's side of the service together.</summary>
static class StaffParts
{
    /// <summary>Every address of staff begins so; their cookies are sent nowhere else.</summary>
    internal const string Prefix = "/staff";

    /// <summary>Folder in the data folder from which keys that seal cookies and the keys of one-time codes are taken into a store without any.</summary>
    const string KeyFolder = "keys";

    /// <summary>A working day: who is at the desk signs in once (common practice).</summary>
    const int SignedInHours = 10;

    /// <summary>Wrong sign-ins in a row, after which an account is locked for a while (common practice; NIST SP 800-63B, 3.2.2, allows no more than 100).</summary>
    internal const int MostFailures = 5;

    /// <summary>How long an account stays locked (common practice).</summary>
    internal const int LockedMinutes = 15;

    /// <summary>Length alone makes a password strong. Source: NIST SP 800-63B, 3.1.1.2 (at least 8 beside a second factor, no rules on the kinds of letters; from memory).</summary>
    internal const int ShortestPassword = 12;

    /// <summary>Rounds of PBKDF2 with HMAC-SHA512. Source: OWASP Password Storage Cheat Sheet (210,000; from memory).</summary>
    const int HashRounds = 210_000;

    internal static void Add(IServiceCollection services, ServiceSettings settings)
    {
        AddSealing(services, settings);
        services.AddHttpContextAccessor();
        services.AddAuthentication().AddIdentityCookies();
        services.AddScoped<StaffMembers>();
        services.AddIdentityCore<StaffMember>(Configure)
            .AddUserStore<StaffMembers>()
            .AddSignInManager()
            .AddTokenProvider<AuthenticatorTokenProvider<StaffMember>>(TokenOptions.DefaultAuthenticatorProvider);
        services.Configure<PasswordHasherOptions>(hasher => hasher.IterationCount = HashRounds);
        services.Configure<IdentityPasskeyOptions>(passkeys =>
        {
            passkeys.UserVerificationRequirement = "required";
            passkeys.ValidateOrigin = asked => ValueTask.FromResult(PasskeyPosts.IsOwnOrigin(asked.HttpContext, asked.Origin, asked.CrossOrigin));
        });
        services.ConfigureAll<CookieAuthenticationOptions>(Configure);
        services.Configure<CookieAuthenticationOptions>(IdentityConstants.ApplicationScheme, cookies =>
        {
            cookies.Cookie.Name = "earhelp-staff";
            cookies.ExpireTimeSpan = TimeSpan.FromHours(SignedInHours);
            cookies.SlidingExpiration = false;
        });
        services.AddAntiforgery(forms =>
        {
            forms.FormFieldName = StaffForm.Token;
            forms.SuppressXFrameOptionsHeader = true;
            forms.Cookie.Name = "earhelp-staff-form";
            Configure(forms.Cookie);
        });
        services.AddSingleton(Console.Out);
        services.AddSingleton<FirstAccount>();
        services.AddHostedService(parts => parts.GetRequiredService<FirstAccount>());
        services.AddSingleton<StaffGate>();
        services.AddSingleton<Auditor>();
        services.AddSingleton<SignInPages>();
        services.AddSingleton<JoinPages>();
        services.AddSingleton<PasskeyPosts>();
        services.AddSingleton<AccountPages>();
        services.AddSingleton<AccountPosts>();
        services.AddSingleton<StaffPages>();
        services.AddSingleton<OwnAccountPages>();
        services.AddSingleton<OwnAccountPosts>();
        services.AddSingleton<StaffReturn>();
        services.AddSingleton<StaffControl>();
        DeskParts.Add(services);
        AfterVisitParts.Add(services);
        FiguresParts.Add(services);
        SystemParts.Add(services);
    }

    internal static void Map(WebApplication app)
    {
        var signIn = app.Services.GetRequiredService<SignInPages>();
        app.MapGet(Prefix + "/sign-in", signIn.ReadAsync);
        app.MapPost(Prefix + "/sign-in", signIn.SignInAsync);
        app.MapPost(Prefix + "/sign-out", signIn.SignOutAsync);
        var joining = app.Services.GetRequiredService<JoinPages>();
        app.MapGet(Prefix + "/join", joining.ReadAsync);
        app.MapPost(Prefix + "/join", joining.JoinAsync);
        app.MapPost(Prefix + "/join/confirm", joining.ConfirmAsync);
        var passkeys = app.Services.GetRequiredService<PasskeyPosts>();
        app.MapPost(Prefix + "/passkey/request", passkeys.RequestAsync);
        app.MapPost(Prefix + "/passkey/sign-in", passkeys.SignInAsync);
        app.MapPost(Prefix + "/passkey/creation", passkeys.CreationAsync);
        app.MapPost(Prefix + "/passkey/add", passkeys.AddAsync);
        app.MapPost(Prefix + "/passkey/remove", passkeys.RemoveAsync);
        var accounts = app.Services.GetRequiredService<AccountPages>();
        app.MapGet(Prefix + "/accounts", accounts.ListAsync);
        app.MapGet(Prefix + "/accounts/{id}", accounts.OneAsync);
        var changes = app.Services.GetRequiredService<AccountPosts>();
        app.MapPost(Prefix + "/accounts", changes.InviteAsync);
        app.MapPost(Prefix + "/accounts/{id}/roles", changes.ChangeRolesAsync);
        app.MapPost(Prefix + "/accounts/{id}/code", changes.InviteAgainAsync);
        app.MapPost(Prefix + "/accounts/{id}/close", changes.CloseAsync);
        var pages = app.Services.GetRequiredService<StaffPages>();
        app.MapGet(Prefix, pages.HomeAsync);
        app.MapGet(Prefix + "/me", pages.MeAsync);
        app.MapGet(Prefix + "/audit", pages.AuditAsync);
        var own = app.Services.GetRequiredService<OwnAccountPages>();
        app.MapGet(OwnAccountPages.PasswordAddress, own.PasswordAsync);
        app.MapGet(OwnAccountPages.CodesAddress, own.CodesAsync);
        var ownPosts = app.Services.GetRequiredService<OwnAccountPosts>();
        app.MapPost(OwnAccountPages.PasswordAddress, ownPosts.ChangePasswordAsync);
        app.MapPost(OwnAccountPages.CodesAddress, ownPosts.ShowKeyAsync);
        app.MapPost(OwnAccountPages.CodesAddress + "/confirm", ownPosts.ConfirmKeyAsync);
        var control = app.Services.GetRequiredService<StaffControl>();
        app.MapGet(ControlSocket.Prefix + "/staff", control.ListAsync);
        app.MapPost(ControlSocket.Prefix + "/staff/{id}/code", control.MakeCodeAsync);
        DeskParts.Map(app);
        AfterVisitParts.Map(app);
        FiguresParts.Map(app);
        SystemParts.Map(app);
    }

    /// <summary>With a certificate the keys are kept encrypted (ASP.NET Core, "Key encryption at rest"); it must be the same on every node.</summary>
    static void AddSealing(IServiceCollection services, ServiceSettings settings)
    {
        var sealing = services.AddDataProtection().SetApplicationName("EarHelp");
        services.AddOptions<KeyManagementOptions>().Configure<IStore>(
            (keys, store) => keys.XmlRepository = new StoredSealingKeys(store.SealingKeys, Path.Combine(settings.Data, KeyFolder)));
        if (settings.KeysCertificate is { } certificate)
            sealing.ProtectKeysWithCertificate(certificate).UnprotectKeysWithAnyCertificate(certificate);
    }

    static void Configure(IdentityOptions identity)
    {
        identity.Password.RequiredLength = ShortestPassword;
        identity.Password.RequiredUniqueChars = 1;
        identity.Password.RequireDigit = identity.Password.RequireLowercase = identity.Password.RequireUppercase = identity.Password.RequireNonAlphanumeric = false;
        identity.Lockout.MaxFailedAccessAttempts = MostFailures;
        identity.Lockout.DefaultLockoutTimeSpan = TimeSpan.FromMinutes(LockedMinutes);
    }

    static void Configure(CookieAuthenticationOptions cookies) => Configure(cookies.Cookie);

    static void Configure(CookieBuilder cookie)
    {
        cookie.Path = Prefix;
        cookie.HttpOnly = true;
        cookie.SameSite = SameSiteMode.Strict;
        cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest;
        cookie.IsEssential = true;
    }
}
