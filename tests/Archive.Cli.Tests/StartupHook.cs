/// <summary>
/// What the runtime calls before the tool starts, where <see cref="Archive.Cli.Tests.StartUpTests"/> asks for it: it must have this name
/// and no namespace.
/// </summary>
#pragma warning disable MA0047 // The runtime looks for it in no namespace.
internal static class StartupHook
{
    internal const string ListName = "ASFOUND_TEST_LIST_OF_ASSEMBLIES";

    public static void Initialize()
    {
        if (Environment.GetEnvironmentVariable(ListName) is not { } list) return;
        AppDomain.CurrentDomain.ProcessExit += (_, _) =>
            File.WriteAllLines(list, AppDomain.CurrentDomain.GetAssemblies().Select(assembly => assembly.GetName().Name!));
    }
}
