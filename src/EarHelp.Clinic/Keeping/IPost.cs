using EarHelp.Clinic.CheckIns;

namespace EarHelp.Clinic.Keeping;

/// <summary>Hands messages to patients over to a server.</summary>
public interface IPost
{
    ValueTask<Delivery> SendAsync(OutgoingMessage message, CancellationToken cancellation);
}
