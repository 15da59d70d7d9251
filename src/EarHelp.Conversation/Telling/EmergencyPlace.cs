using EarHelp.Conversation.States;
using EarHelp.Triage.Editions;

namespace EarHelp.Conversation.Telling;

/// <summary>For which country the emergency blanks are filled, where that is not the clinic's alone.</summary>
/// <param name="Country">One of the edition's list; null: not known which.</param>
/// <param name="MayBeHome">The person has not said that they are abroad, so the clinic's own number stands beside it.</param>
readonly record struct EmergencyPlace(string? Country, bool MayBeHome)
{
    /// <summary>Null: the clinic's own number.</summary>
    public static EmergencyPlace? Of(Edition edition, ConversationState state)
    {
        if (edition.EmergencyNumbers.Abroad is not { } abroad)
            return null;
        var said = state.Answers.Find(new FactOfEar(abroad.Of.Index, null));
        var answered = said is Said.Values values ? values.Set : edition.Dialog.Facts[abroad.Of.Index].Values.All;
        if (!answered.Overlaps(abroad.Values))
            return null;
        var isAbroad = answered.IsSubsetOf(abroad.Values);

        // Whoever is abroad and names the clinic's country says where they come from, and not where they are.
        var isNamed = state.Country is not null && !string.Equals(state.Country, edition.Clinic.Country, StringComparison.Ordinal);
        return isAbroad || isNamed ? new EmergencyPlace(isNamed ? state.Country : null, !isAbroad) : null;
    }

    /// <summary>What to call, and the way without hearing.</summary>
    public (string Call, string WithoutHearing) Words(Edition edition, Wording wording)
    {
        var (clinic, country) = (edition.Clinic, Country);
        if (edition.EmergencyNumbers.Countries.FirstOrDefault(c => c.Country == country) is not { } there)
            return edition.EmergencyNumbers.AnyOther is { } other ? (other.Call, other.WithoutHearing) : (clinic.EmergencyNumber, clinic.EmergencyWithoutHearing);
        if (!MayBeHome)
            return (Say("emergency number in country", there.Call, string.Empty), there.WithoutHearing);
        return (Say("emergency here or abroad", there.Call, clinic.EmergencyNumber), Say("emergency here or abroad", there.WithoutHearing, clinic.EmergencyWithoutHearing));

        string Say(string key, string abroad, string here) => new Filling(isSelf: true, name => name switch
        {
            "there" => abroad,
            "here" => here,
            "country" => there.Country,
            _ => null,
        }).Fill(wording.Interface.GetValueOrDefault(key, key));
    }
}
