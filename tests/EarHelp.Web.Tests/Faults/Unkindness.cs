namespace EarHelp.Web.Tests.Faults;

/// <summary>What a bad way between a browser and a node does to a request.</summary>
enum Unkindness
{
    /// <summary>The node never sees it.</summary>
    LosesRequest,

    /// <summary>The node has answered, and nobody hears it.</summary>
    LosesAnswer,

    /// <summary>Half of the answer comes.</summary>
    CutsAnswer,

    Delays,

    /// <summary>The node gets it twice at the same moment.</summary>
    Doubles,

    /// <summary>The node gets it once more when the conversation may have gone on.</summary>
    RepeatsLater,

    /// <summary>It waits until others that were sent later have passed.</summary>
    HoldsRequest,

    /// <summary>The same with its answer.</summary>
    HoldsAnswer,
}
