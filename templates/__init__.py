"""The report templates that come with gudgeon: data only, one TOML file each."""
