using EarHelp.Conversation.Replies;

namespace EarHelp.Cli.Demonstrating;

/// <summary>What has come into the store so far.</summary>
sealed class FilledWeek
{
    public List<SentRequest> Requests { get; } = [];

    /// <summary>Rows of the file for which no example patient could be found.</summary>
    public List<string> LeftOut { get; } = [];

    /// <summary>Conversations of visits, each with whether its patient has not come back yet.</summary>
    public List<(string Conversation, bool IsUnopened)> Visits { get; } = [];

    /// <summary>A conversation with a visit that is booked; null: none was.</summary>
    public string? Booked { get; set; }

    public int Conversations { get; set; }
}

sealed record SentRequest(string Conversation, OutcomeTold Told);
