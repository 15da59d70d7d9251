namespace EarHelp.Proof.Tests;

public sealed class ShippedEditionTests
{
    [Fact]
    public void Every_property_holds_for_every_possible_patient()
    {
        var report = EditionProof.Of(ShippedEdition.Whole);

        Assert.Empty(report.Errors);
        Assert.StartsWith("7 properties hold for ", report.Summary(TimeSpan.Zero), StringComparison.Ordinal);
    }

    [Fact]
    public void The_proof_ends_within_the_memory_that_is_allowed()
    {
        const long Allowed = 300L * 1024 * 1024;
        GC.Collect();
        var before = GC.GetTotalMemory(forceFullCollection: true);

        var report = EditionProof.Of(ShippedEdition.Whole);

        Assert.True(GC.GetTotalMemory(forceFullCollection: false) - before < Allowed);
        Assert.NotEmpty(report.Summary(TimeSpan.Zero));
    }

    [Fact]
    public void A_proof_that_meets_its_bound_is_an_error_that_names_it()
    {
        var report = EditionProof.Of(ShippedEdition.Whole, nodeLimit: 1000);

        var error = Assert.Single(report.Errors);
        Assert.Contains("1000 diagram nodes", error.Fault, StringComparison.Ordinal);
        Assert.DoesNotContain("hold", report.Summary(TimeSpan.Zero), StringComparison.Ordinal);
    }
}
