namespace EarHelp.Web.Pages;

/// <summary>What the frame of a page must know.</summary>
/// <param name="Title">The state of the page, e.g. "Your plan"; the service's name is put behind it.</param>
/// <param name="Token">The form token, or null if there is no conversation that could be left.</param>
/// <param name="HasQuestion">True if the page asks something that can be skipped to.</param>
public sealed record PageState(string Title, string? Token, bool HasQuestion);
