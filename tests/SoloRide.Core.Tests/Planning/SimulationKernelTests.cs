using FsCheck.Xunit;
using SoloRide.Accuracy;
using SoloRide.Planning;

namespace SoloRide.Tests.Planning;

public sealed class SimulationKernelTests
{
    // Own arithmetic, recomputed elsewhere with 16 million draws: tests/SoloRide.Core.Tests/Data/planning/arrival_fixture.csv.
    // Fewer draws here: 50,000, standard error about 0.5 min at P90.
    [Fact]
    public void Run_ArrivalFixture_SharedFactorIsKept()
    {
        SimulationResult shared = SimulationKernel.Run(PlanningTables.Fixture(true), 50_000, 1, 1, default);
        SimulationResult independent = SimulationKernel.Run(PlanningTables.Fixture(false), 50_000, 1, 1, default);
        Assert.Equal(436.28, PlanningTables.Quantile(shared.FinishSec, 0.9) / 60, 1.5);
        Assert.Equal(402.80, PlanningTables.Quantile(independent.FinishSec, 0.9) / 60, 1.5);
        Assert.Equal(361.88, PlanningTables.Quantile(shared.FinishSec, 0.5) / 60, 1.0);
    }

    [Theory]
    [InlineData(2)]
    [InlineData(5)]
    public void Run_MoreThreads_SameBits(int threads)
    {
        SimulationResult one = SimulationKernel.Run(PlanningTables.Fixture(true), 3000, 7, 1, default);
        SimulationResult many = SimulationKernel.Run(PlanningTables.Fixture(true), 3000, 7, threads, default);
        Assert.Equal(one.FinishSec, many.FinishSec);
        Assert.Equal(one.Draws, many.Draws);
    }

    [Property(MaxTest = 20)]
    public bool Run_NoSpread_EverySampleIsTheMiddleRun(byte seed)
    {
        SimulationInput input = PlanningTables.Plain([600, 1200, 900], 0, 0, 300, 0, 0);
        SimulationResult samples = SimulationKernel.Run(input, 64, seed, 1, default);
        double middle = SimulationKernel.Middle(input, _ => true).FinishSec[0];
        return samples.FinishSec.All(t => t == middle) && middle == 3000;
    }

    [Fact]
    public void Run_Cancelled_Stops()
        => Assert.Throws<OperationCanceledException>(() => SimulationKernel.Run(PlanningTables.Fixture(true), 100_000, 1, 1, new CancellationToken(true)));
}
