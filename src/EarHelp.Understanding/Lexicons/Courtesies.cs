namespace EarHelp.Understanding.Lexicons;

/// <summary>Keys of the short texts that answer what is only polite.</summary>
static class Courtesies
{
    public const string Greeting = "greeting back", Thanks = "thanks back";
}
