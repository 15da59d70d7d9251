using System.Collections.Frozen;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;

namespace EarHelp.Proof.Patients;

/// <summary>What facts are called in the summaries of an edition's own questions; where it has no words, their own names.</summary>
sealed class FactNames
{
    readonly FrozenDictionary<string, string> _brief;

    FactNames(FrozenDictionary<string, string> brief) => _brief = brief;

    /// <param name="editions">The first that has words for a fact names it.</param>
    public static FactNames Of(params Edition?[] editions)
    {
        var brief = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var edition in editions.OfType<Edition>())
        {
            var wording = edition.Wordings.OrderBy(w => w.Key, StringComparer.Ordinal).Select(w => w.Value).FirstOrDefault();
            foreach (var screen in edition.Dialog.Screens)
            {
                if (wording is null || !wording.Questions.TryGetValue(screen.Id, out var words))
                    continue;
                foreach (var fact in screen.Facts)
                {
                    var name = screen.IsChecklist ? words.Entries.FirstOrDefault(e => e.Fact == fact)?.InBrief : words.InBrief;
                    if (!string.IsNullOrEmpty(name))
                        brief.TryAdd(edition.Dialog.Facts[fact].DecidingId, name);
                }
            }
        }

        return new FactNames(brief.ToFrozenDictionary(StringComparer.Ordinal));
    }

    public string Of(Fact fact) => _brief.GetValueOrDefault(fact.DecidingId, fact.DecidingId);
}
