using BenchmarkDotNet.Running;

// One class a module; `--filter '*Daylight*'` picks, `--list flat` lists.
BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args);
