using System.Collections.Immutable;
using EarHelp.Clinic.Auditing;

namespace EarHelp.Web.Staff;

/// <summary>What an edition must word so that staff can sign in and work; one that lacks any is not served.</summary>
public static class NeededStaffWords
{
    public static ImmutableArray<string> Texts { get; } =
    [
        "staff home", "staff ways", "staff welcome", "staff your roles", "staff sign out", "staff refused heading", "staff refused",
        "staff sign in", "staff sign in button", "staff sign in wrong", "staff name", "staff password", "staff code", "staff code hint", "staff join link",
        "staff join", "staff join code", "staff join code hint", "staff join code wrong", "staff join own name", "staff join own name hint",
        "staff join own name missing", "staff join name hint", "staff join name taken", "staff join name wrong", "staff join password hint",
        "staff join password short", "staff join button", "staff key heading", "staff key hint", "staff key link", "staff key button", "staff join one-time wrong",
        "staff passkey sign in", "staff passkey add", "staff passkey failed", "staff passkeys", "staff passkeys none", "staff passkeys hint", "staff passkey made",
        "staff passkey remove", "staff me", "staff signs in as",
        "staff password change", "staff password change hint", "staff password now", "staff password new", "staff password changed", "staff password change button",
        "staff codes change", "staff codes change hint", "staff codes change button", "staff codes changed", "staff codes late", "staff own wrong",
        "staff provider sign in", "staff provider failed", "staff provider no role", "staff provider me", "staff provider roles",
        "staff accounts", "staff who", "staff roles", "staff state", "staff nameless", "staff state invited", "staff state open", "staff state closed",
        "staff role desk", "staff role clinician", "staff role author", "staff role approver", "staff role administrator",
        "staff invite heading", "staff invite name", "staff invite no name", "staff invite button", "staff invited heading", "staff invited",
        "staff roles none", "staff roles button", "staff last administrator", "staff changed meanwhile",
        "staff code again heading", "staff code again", "staff code again button", "staff close heading", "staff close", "staff close button",
        "staff audit", "staff audit hint", "staff audit damaged", "staff audit when", "staff audit who", "staff audit what", "staff audit whose",
        .. Enum.GetValues<AuditDeed>().Select(StaffPages.KeyOf),
    ];
}
