namespace EarHelp.Storage.Disk;

/// <summary>The names of the files in a data folder.</summary>
sealed record StoreFolder(string Path)
{
    public string Main => In("earhelp.db");

    public string Log => In("earhelp-log.db");

    /// <summary>A main file that is being written and is not yet the main file; worthless after a crash.</summary>
    public string NextMain => In("earhelp-next.db");

    public string NextLog => In("earhelp-next-log.db");

    /// <summary>There while something that was erased may still stand in the main file.</summary>
    public string Due => In("earhelp-erased");

    public string Lock => In("earhelp.lock");

    /// <summary>Says in one line which process holds the lock.</summary>
    public string Holder => In("earhelp.pid");

    string In(string name) => System.IO.Path.Combine(Path, name);
}
