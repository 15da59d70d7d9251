using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Web.Editions;
using EarHelp.Web.Pages;
using EarHelp.Web.Security;
using EarHelp.Web.Serving;
using EarHelp.Web.Turns;
using NodaTime;

namespace EarHelp.Web.Visits;

/// <summary>The pages about a visit that are only read: the form, the request as it stands, taking it back, coming back with a code.</summary>
public sealed class VisitPages(
    Talk talk, VisitRequests requests, ServedEditions editions, FaultPages faults, ServiceSettings settings, TimeProvider clock)
{
    Instant Now => Instant.FromDateTimeOffset(clock.GetUtcNow());

    /// <summary>The request if there is one, else the form.</summary>
    public async Task VisitAsync(HttpContext context)
    {
        if (await FindAsync(context) is not var (secret, conversation, kept))
            return;
        if (kept is null)
            await SendFormAsync(context, secret, conversation, ContactDetails.Empty, "visit heading");
        else if (kept is { Request.State: RequestState.Waiting, Contact: { } contact })
            await SendRequestAsync(context, secret, conversation, kept.Request, contact);
        else
            await SendAsync(context, RequestPages.WriteWithdrawn(conversation.Words, IsOffered(conversation), FormToken.For(secret)));
    }

    /// <summary>The form with what is kept; after it was taken back, an empty one.</summary>
    public async Task ChangeAsync(HttpContext context)
    {
        if (await FindAsync(context) is not var (secret, conversation, kept))
            return;
        if (kept is { Request.State: RequestState.Waiting, Contact: { } contact })
            await SendAsync(context, Form(conversation, contact, "visit change heading", secret));
        else
            await SendFormAsync(context, secret, conversation, ContactDetails.Empty, "visit heading");
    }

    public async Task WithdrawAsync(HttpContext context)
    {
        if (await FindAsync(context) is not var (secret, conversation, kept))
            return;
        if (kept?.Request.State == RequestState.Waiting)
            await SendAsync(context, RequestPages.WriteWithdraw(conversation.Words, FormToken.For(secret), Secret.NewIdentifier()));
        else
            await PageResponse.GoToAsync(context, "/visit");
    }

    /// <summary>Where a receipt code is typed in; for anybody.</summary>
    public Task ReceiptAsync(HttpContext context)
    {
        if (editions.Current is not { } served)
            return faults.SendEmergencyAsync(context, isNotSaved: false);
        var secret = PatientCookie.ReadOrNew(context, settings.UnfinishedFor);
        return SendAsync(context, RequestPages.WriteReceipt(Words.First(served), isWrong: false, FormToken.For(secret)));
    }

    /// <summary>True if a visit may be asked for: nothing that was told is withdrawn, and the clinic can see the person in time.</summary>
    internal bool IsOffered(OpenConversation conversation) => IsOffered(conversation, editions, Now);

    internal static bool IsOffered(OpenConversation conversation, ServedEditions editions, Instant now) =>
        conversation.Outcome is { } told && OffPage.KeyFor(conversation, editions) is null && VisitOffer.IsMade(conversation.Edition, told, now);

    async Task SendFormAsync(HttpContext context, string secret, OpenConversation conversation, ContactDetails contact, string heading)
    {
        if (IsOffered(conversation))
            await SendAsync(context, Form(conversation, contact, heading, secret));
        else
            await PageResponse.GoToAsync(context, "/plan");
    }

    async Task SendRequestAsync(HttpContext context, string secret, OpenConversation conversation, VisitRequest request, ContactDetails contact)
    {
        var code = ReceiptCode.For(secret, conversation.Id);
        var isOurs = await talk.IsReceiptAsync(code, conversation.Id, context.RequestAborted);
        var told = OffPage.KeyFor(conversation, editions) is null ? ClosedNow.In(conversation.Edition, conversation.State.Told, Now) : null;
        var page = RequestPages.WriteRequest(
            conversation.Words,
            conversation.Edition,
            request,
            contact,
            told,
            isOurs ? ReceiptCode.InGroups(code) : null,
            $"{context.Request.Scheme}://{context.Request.Host}/receipt",
            FormToken.For(secret),
            Secret.NewIdentifier(),
            Now);
        await SendAsync(context, page);
    }

    static ReadOnlyMemory<byte> Form(OpenConversation conversation, ContactDetails contact, string heading, string secret) =>
        RequestForm.WritePage(conversation.Words, heading, contact, [], FormToken.For(secret), Secret.NewIdentifier());

    async Task<(string Secret, OpenConversation Conversation, KeptRequest? Kept)?> FindAsync(HttpContext context)
    {
        if (PatientCookie.Read(context) is { } secret && await talk.FindAsync(secret, context.RequestAborted) is { } conversation)
            return (secret, conversation, await requests.FindAsync(conversation.Id, context.RequestAborted));
        await PageResponse.GoToAsync(context, "/");
        return null;
    }

    static Task SendAsync(HttpContext context, ReadOnlyMemory<byte> page) => PageResponse.SendAsync(context, page);
}
