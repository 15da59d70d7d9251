using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using Google.OrTools.Sat;

namespace EarHelp.Proof.Tests.SecondOpinion;

/// <summary>Asks a constraint solver (CP-SAT of OR-Tools) whether there is a patient.</summary>
sealed class Solver
{
    readonly CpModel _model = new();

    public Solver(Dialog dialog)
    {
        Dialog = dialog;
        Patient = new SolverPatient(_model, dialog);
    }

    public Dialog Dialog { get; }

    public SolverPatient Patient { get; }

    /// <summary>True if some possible patient is as wished.</summary>
    public bool Finds(ILiteral wished)
    {
        _model.ClearAssumptions();
        _model.AddAssumption(wished);
        return Solve(_model);
    }

    /// <summary>True if a worse answer to one of the facts makes somebody less urgent.</summary>
    public static bool FindsFall(Dialog dialog, params IEnumerable<Fact> facts)
    {
        var model = new CpModel();
        var (before, after) = (new SolverPatient(model, dialog), new SolverPatient(model, dialog));
        var moves = new List<ILiteral>();
        foreach (var fact in dialog.Facts)
        {
            var (one, other) = (before.Facts[fact.Index], after.Facts[fact.Index]);
            if (!facts.Contains(fact) || fact.Worse is not Worse.Towards { Higher: var isHigher })
            {
                model.Add(one == other);
                continue;
            }

            var moved = model.NewBoolVar("");
            model.Add(one == other).OnlyEnforceIf(moved.Not());
            model.Add(isHigher ? other > one : other < one).OnlyEnforceIf(moved);
            moves.Add(moved);
        }

        model.AddExactlyOne(moves);
        model.AddBoolOr([.. dialog.Levels.Select(l => before.Every([before.IsAtLeastAsUrgentAs(l.Rank), after.IsAtLeastAsUrgentAs(l.Rank).Not()]))]);
        return moves.Count > 0 && Solve(model);
    }

    static bool Solve(CpModel model)
    {
        // One worker and one seed: the same answer every time.
        var solver = new CpSolver { StringParameters = "num_workers:1,random_seed:1" };
        var status = solver.Solve(model);
        return status switch
        {
            CpSolverStatus.Optimal or CpSolverStatus.Feasible => true,
            CpSolverStatus.Infeasible => false,
            _ => throw new InvalidOperationException($"The solver gave up: {status}."),
        };
    }
}
