using EarHelp.Triage.Editions;

namespace EarHelp.Content.Dialogs;

/// <summary>The dialog, and what the checks and the words need besides.</summary>
/// <param name="IsOtherwise">By rule: - in every condition.</param>
sealed record CompiledDialog(Dialog Dialog, FactScope Scope, SourceReader Sources, ConditionReader Conditions, Func<string, bool> IsOtherwise);
