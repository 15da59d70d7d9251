namespace EarHelp.Understanding.Messages;

static class Person
{
    /// <summary>Somebody who is named among these begins the message.</summary>
    const int FirstWords = 2;

    /// <summary>Somebody is named, and nothing says that the writer's own ear is meant.</summary>
    public static bool IsAnother(Scopes scopes)
    {
        if (scopes.Of("about another").Any(a => !scopes.Of("only tells").Any(t => t.First < a.First && scopes.AreInOneSentence(t.First, a.First))))
            return true;
        var own = scopes.Of("own ear").Count;
        var third = scopes.Of("he or she").Count(t => !IsTold(t));
        var named = scopes.Of("somebody").Where(s => !IsTold(s)).ToList();
        if (own > 0)
            return named.Count > 0 && third > own + own;
        if (named.Count == 0)
            return third > 0 && scopes.Of("clinician").Count == 0;
        return named.Exists(s => s.First <= FirstWords) || (third > 0 && scopes.IsInFirstSentence(named[0].First));

        // "My dad says it made his ear bleed" is about the writer.
        bool IsTold(Finding<Trigger> trigger) => scopes.Of("only tells").Any(t => t.First <= trigger.Last && scopes.AreInOneSentence(t.First, trigger.First));
    }
}
