namespace EarHelp.Understanding.Messages;

static class Person
{
    /// <summary>Somebody is named, and nothing says that the writer's own ear is meant.</summary>
    public static bool IsAnother(Scopes scopes)
    {
        if (scopes.Of("about another").Any())
            return true;
        var own = scopes.Of("own ear").Count();
        var third = scopes.Of("he or she").Count();
        var named = scopes.Of("somebody").Count(s => !scopes.Of("only tells").Any(t => t.First <= s.Last && t.Last >= s.First));
        if (named == 0)
            return third > 0 && own == 0 && !scopes.Of("clinician").Any();
        return own == 0 ? third > 0 || scopes.Of("somebody").Any(s => s.First <= 2) : third > own + own;
    }
}
