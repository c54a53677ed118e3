namespace TeamCircle.Data.Migrations;

/// <summary>
/// Says which portals may serve on a database that has this migration: those that know the named migration of the same schema.
/// A migration without it lets no older portal serve.
/// </summary>
/// <remarks>
/// For a migration that only adds what an older portal can leave aside: tables, columns that may be empty or have a default. What takes away,
/// renames or narrows comes a release later, when no portal that uses it is left (docs/decisions/0033-upgrade-while-serving.md).
/// </remarks>
[AttributeUsage(AttributeTargets.Class)]
public sealed class OldestPortalAttribute(string migration) : Attribute
{
    public string Migration => migration;
}
