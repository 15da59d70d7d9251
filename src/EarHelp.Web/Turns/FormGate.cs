using System.Globalization;
using EarHelp.Web.Pages;
using EarHelp.Web.Security;

namespace EarHelp.Web.Turns;

/// <summary>Lets a form through only if it came from a page of ours, in this browser.</summary>
public sealed class FormGate(Talk talk, FaultPages faults)
{
    /// <returns>The form and the secret of who sent it; null if it was refused, and then that has been said.</returns>
    public async Task<SentForm?> ReadAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        if (context.Request.HasFormContentType && PatientCookie.Read(context) is { } secret && FormToken.IsSameSite(context.Request))
        {
            var fields = await context.Request.ReadFormAsync(context.RequestAborted);
            if (FormToken.IsRight(secret, fields[FormToken.Field]))
                return new SentForm(fields, secret);
        }

        await faults.SendAsync(context, StatusCodes.Status400BadRequest);
        return null;
    }

    /// <returns>The form, which turn it is, and the conversation that it belongs to; null if it was refused, and then that has been said.</returns>
    public async Task<(SentForm Sent, string Turn, OpenConversation Conversation)?> OpenAsync(HttpContext context)
    {
        if (await ReadAsync(context) is not { } sent)
            return null;
        var conversation = await talk.FindAsync(sent.Secret, context.RequestAborted);
        if (conversation is not null && sent.Turn is { } turn)
            return (sent, turn, conversation);
        await (conversation is null ? faults.SendExpiredAsync(context) : faults.SendAsync(context, StatusCodes.Status400BadRequest));
        return null;
    }
}

/// <param name="Secret">What the sender's cookie holds.</param>
public sealed record SentForm(IFormCollection Fields, string Secret)
{
    /// <summary>The longest identifier of a turn that is believed to be one of ours.</summary>
    internal const int LongestTurn = 64;

    /// <summary>Null if the form does not say which turn it is.</summary>
    internal string? Turn
    {
        get
        {
            var turn = Fields[FormFields.Turn].ToString();
            return turn.Length is > 0 and <= LongestTurn ? turn : null;
        }
    }

    /// <summary>The question that the form answers, or null.</summary>
    internal Conversation.Turns.QuestionName? Question
    {
        get
        {
            var screen = Fields[FormFields.Screen].ToString();
            return screen.Length > 0 && Whole(FormFields.Wording) is { } wording && Whole(FormFields.AskedIn) is { } asked
                ? new(screen, FormFields.ReadEar(Fields[FormFields.Ear]), wording, asked)
                : null;
        }
    }

    int? Whole(string field) =>
        int.TryParse(Fields[field], NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            ? number
            : null;
}
