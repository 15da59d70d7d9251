namespace EarHelp.Web.Pages;

/// <summary>How deep a heading stands, as HTML counts.</summary>
enum HeadingTag
{
    Second = 2,
    Third = 3,
    Fourth = 4,
    Fifth = 5,
}
