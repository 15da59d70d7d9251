using System.Collections.Immutable;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Web.Editions;
using EarHelp.Web.Pages;
using EarHelp.Web.Security;
using EarHelp.Web.Serving;
using EarHelp.Web.Turns;

namespace EarHelp.Web.Visits;

/// <summary>The forms about a visit. Until a request is sent, what was filled in travels in its pages only.</summary>
public sealed class VisitPosts(
    Talk talk, VisitRequests requests, VisitPages pages, FormGate gate, ServedEditions editions, FaultPages faults, ServiceSettings settings)
{
    /// <summary>What a person is asked to look at once more; with a fault, the form again.</summary>
    public async Task CheckAsync(HttpContext context)
    {
        if (await gate.OpenAsync(context) is not var (sent, turn, conversation))
            return;
        var contact = RequestFields.Read(sent.Fields);
        if (ContactCheck.FaultsOf(contact) is { IsEmpty: false } wrong)
            await SendFormAsync(context, sent, turn, conversation, contact, wrong);
        else
            await PageResponse.SendAsync(context, RequestPages.WriteReview(conversation.Words, contact, FormToken.For(sent.Secret), turn));
    }

    /// <summary>Back to the form, with everything as it was.</summary>
    public async Task CorrectAsync(HttpContext context)
    {
        if (await gate.OpenAsync(context) is var (sent, turn, conversation))
            await SendFormAsync(context, sent, turn, conversation, RequestFields.Read(sent.Fields), []);
    }

    public async Task SendAsync(HttpContext context)
    {
        if (await gate.OpenAsync(context) is not var (sent, turn, conversation))
            return;
        var contact = RequestFields.Read(sent.Fields);
        if (ContactCheck.FaultsOf(contact) is { IsEmpty: false } wrong)
        {
            await SendFormAsync(context, sent, turn, conversation, contact, wrong);
            return;
        }

        var kept = (await requests.FindAsync(conversation.Id, context.RequestAborted))?.Request;
        if (kept?.HasTaken(turn) != true && !await IsTakenAsync(context, sent, turn, conversation, kept))
            return;
        var urgency = conversation.State.Told is { } told ? Urgency.Of(told) : kept!.Urgency;
        if (await requests.AskAsync(conversation.Id, turn, urgency, contact, context.RequestAborted) == RequestPut.Gone)
            await faults.SendExpiredAsync(context);
        else
            await PageResponse.GoToAsync(context, "/visit");
    }

    public async Task WithdrawAsync(HttpContext context)
    {
        if (await gate.OpenAsync(context) is not var (_, turn, conversation))
            return;
        await requests.WithdrawAsync(conversation.Id, turn, context.RequestAborted);
        await PageResponse.GoToAsync(context, "/visit");
    }

    /// <summary>Opens a request, and the conversation behind it, for this browser.</summary>
    public async Task OpenReceiptAsync(HttpContext context)
    {
        if (await gate.ReadAsync(context) is not { } sent)
            return;
        var secret = Secret.New();
        var opened = ReceiptCode.Read(sent.Fields["code"]) is { } code
            ? await talk.OpenReceiptAsync(code, secret, Secret.NewIdentifier(), HasRequestAsync, context.RequestAborted)
            : null;
        switch (opened)
        {
            case TakenTurns.Kept:
                PatientCookie.Write(context, secret, settings.UnfinishedFor);
                await PageResponse.GoToAsync(context, "/visit");
                break;
            case TakenTurns.NotSaved:
                await faults.SendEmergencyAsync(context, isNotSaved: true);
                break;
            case null or TakenTurns.Gone when editions.Current is { } served:
                var page = RequestPages.WriteReceipt(Words.First(served), isWrong: true, FormToken.For(sent.Secret));
                await PageResponse.SendAsync(context, page, StatusCodes.Status422UnprocessableEntity);
                break;
            default:
                await faults.SendExpiredAsync(context);
                break;
        }
    }

    async ValueTask<bool> HasRequestAsync(string conversation, CancellationToken cancellation) => await requests.FindAsync(conversation, cancellation) is not null;

    /// <summary>A first request must still be offered, and gets its receipt code; later ones keep theirs. False if it was refused, and that has been said.</summary>
    async Task<bool> IsTakenAsync(HttpContext context, SentForm sent, string turn, OpenConversation conversation, VisitRequest? kept)
    {
        if (kept is { State: RequestState.Waiting })
            return true;
        if (!pages.IsOffered(conversation))
        {
            await PageResponse.GoToAsync(context, "/plan");
            return false;
        }

        var code = ReceiptCode.For(sent.Secret, conversation.Id);
        if (await talk.MakeReceiptAsync(conversation, turn, code, context.RequestAborted) is TakenTurns.Kept)
            return true;
        await faults.SendEmergencyAsync(context, isNotSaved: true);
        return false;
    }

    static Task SendFormAsync(
        HttpContext context,
        SentForm sent,
        string turn,
        OpenConversation conversation,
        ContactDetails contact,
        ImmutableArray<ContactFault> wrong) => PageResponse.SendAsync(
            context,
            RequestForm.WritePage(conversation.Words, "visit heading", contact, wrong, FormToken.For(sent.Secret), turn),
            wrong.IsEmpty ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity);
}
