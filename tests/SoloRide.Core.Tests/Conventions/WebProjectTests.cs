using System.Diagnostics;

namespace SoloRide.Tests.Conventions;

/// <summary>A web project imports namespaces of its own; none of our names may collide with them.</summary>
public sealed class WebProjectTests
{
    [Fact]
    public async Task WebProject_ImportingEveryNamespace_NamesEveryTypeWithoutAmbiguity()
    {
        string folder = Directory.CreateTempSubdirectory("soloride-web").FullName;
        try
        {
            Type[] types = [.. typeof(GeoPoint).Assembly.GetExportedTypes().Where(t => !t.IsNested)];
            string usings = string.Join('\n', types.Select(t => t.Namespace).Distinct().Order(StringComparer.Ordinal).Select(n => $"using {n};"));
            string uses = string.Join('\n', types.Where(t => !(t.IsAbstract && t.IsSealed)).Select((t, i) => $"    private {Name(t)}? _{i};"));
            string statics = string.Join('\n', types.Where(t => t.IsAbstract && t.IsSealed && !t.IsGenericTypeDefinition).Select(t => $"        _ = nameof({t.Name});"));
            File.WriteAllText(Path.Combine(folder, "Program.cs"), $$"""
                {{usings}}
                #pragma warning disable CS0169
                var app = WebApplication.CreateBuilder(args).Build();
                app.MapGet("/", () => "ok");
                return 0;
                internal sealed class Uses
                {
                {{uses}}
                    internal static void Statics()
                    {
                {{statics}}
                    }
                }
                """);
            File.WriteAllText(Path.Combine(folder, "web.csproj"), $"""
                <Project Sdk="Microsoft.NET.Sdk.Web">
                  <PropertyGroup>
                    <TargetFramework>net10.0</TargetFramework>
                    <Nullable>enable</Nullable>
                    <ImplicitUsings>enable</ImplicitUsings>
                  </PropertyGroup>
                  <ItemGroup>
                    <Reference Include="{typeof(GeoPoint).Assembly.Location}" />
                    <Reference Include="{typeof(UnitsNet.Length).Assembly.Location}" />
                    <Reference Include="{typeof(NetTopologySuite.Geometries.Geometry).Assembly.Location}" />
                  </ItemGroup>
                </Project>
                """);
            foreach (string file in new[] { "Directory.Build.props", "Directory.Build.targets", "Directory.Packages.props" })
            {
                File.WriteAllText(Path.Combine(folder, file), "<Project />");
            }

            var start = new ProcessStartInfo("dotnet", ["build", folder, "--nologo", "-v", "q"]) { RedirectStandardOutput = true, RedirectStandardError = true };
            using Process process = Process.Start(start)!;
            Task<string> errors = process.StandardError.ReadToEndAsync();
            string output = await process.StandardOutput.ReadToEndAsync();
            await process.WaitForExitAsync();
            Assert.True(process.ExitCode == 0, output + await errors);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static string Name(Type t)
        => t.IsGenericTypeDefinition ? t.Name[..t.Name.IndexOf('`', StringComparison.Ordinal)] + "<TimeSpan>" : t.Name;
}
