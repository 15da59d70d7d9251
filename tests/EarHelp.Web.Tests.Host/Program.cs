using System.Globalization;
using EarHelp.Conversation.Keeping;
using EarHelp.Web.Serving;
using EarHelp.Web.Tests.Host;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.Extensions.DependencyInjection;

// The service as it is, in a process that kills itself at a point of a turn. Arguments: the point, at which turn, then the service's own.
var death = new Death(Enum.Parse<DeathPoint>(args[0]), int.Parse(args[1], CultureInfo.InvariantCulture));
await using var app = ServiceHost.Build(args[2..], services =>
{
    var kept = services.Last(s => s.ServiceType == typeof(ITurnStore));
    services.AddSingleton<ITurnStore>(parts => new MortalTurnStore((ITurnStore)kept.ImplementationFactory!(parts), death));
    services.AddSingleton<IStartupFilter>(new MortalDoor(death));
});
await app.RunAsync();
