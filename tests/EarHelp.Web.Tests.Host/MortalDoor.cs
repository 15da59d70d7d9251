using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;

namespace EarHelp.Web.Tests.Host;

/// <summary>The points at which a form comes in and its answer goes out, before everything that the service does.</summary>
sealed class MortalDoor(Death death) : IStartupFilter
{
    public Action<IApplicationBuilder> Configure(Action<IApplicationBuilder> next) => app =>
    {
        app.Use(async (context, inside) =>
        {
            if (!HttpMethods.IsPost(context.Request.Method))
            {
                await inside(context);
                return;
            }

            death.PassBy(DeathPoint.Received);
            context.Response.OnStarting(() =>
            {
                death.PassBy(DeathPoint.Answering);
                return Task.CompletedTask;
            });
            context.Response.OnCompleted(() =>
            {
                death.PassBy(DeathPoint.Answered);
                return Task.CompletedTask;
            });
            await inside(context);
        });
        next(app);
    };
}
