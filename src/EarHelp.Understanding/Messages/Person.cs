namespace EarHelp.Understanding.Messages;

static class Person
{
    /// <summary>Somebody who is named among these begins the message.</summary>
    const int FirstWords = 2;

    /// <summary>What names the other whose ear it is about; null: nobody else is named, or the writer's own ear is meant.</summary>
    public static Finding<Trigger>? Another(Scopes scopes)
    {
        if (scopes.Of("about another").FirstOrDefault(a => !scopes.Of("only tells").Any(t => t.First < a.First && scopes.AreInOneSentence(t.First, a.First))) is { } plainly)
            return plainly;
        var own = scopes.Of("own ear").Count;
        var third = scopes.Of("he or she").Where(t => !IsTold(t)).ToList();
        var named = scopes.Of("somebody").Where(s => !IsTold(s)).ToList();
        if (own > 0)
            return third.Count > own + own ? named.FirstOrDefault() : null;
        if (named.Count == 0)
            return scopes.Of("clinician").Count == 0 ? third.FirstOrDefault() : null;
        return named.Find(s => s.First <= FirstWords) ?? (third.Count > 0 && scopes.IsInFirstSentence(named[0].First) ? named[0] : null);

        // "My dad says it made his ear bleed" is about the writer.
        bool IsTold(Finding<Trigger> trigger) => scopes.Of("only tells").Any(t => t.First <= trigger.Last && scopes.AreInOneSentence(t.First, trigger.First));
    }
}
