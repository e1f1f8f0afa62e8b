using CommonGround.Storage.Operations;
using CommonGround.Storage.History;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Npgsql;

namespace CommonGround.Storage.Saving;

internal enum RefusalKind
{
    /// <summary>Somebody was faster: looking again may find another answer.</summary>
    Overtaken,

    /// <summary>The session or the role is lost.</summary>
    Standing,

    /// <summary>A rule of the database stands against it.</summary>
    Rule,

    /// <summary>A reason outside the program.</summary>
    StorageFailed,
}

/// <summary>Why the database did not take a write, told from its own answer and nothing else.</summary>
internal sealed record Refusal(RefusalKind Kind, Problem Problem)
{
    private static readonly Problem Overtaken = new("",
        "Somebody else saved at the same place at the same moment, so this was not saved. What you typed is kept here: look at it again, "
            + "then save.");

    /// <summary>Null where the failure is none of these: then it is a fault of the program.</summary>
    public static Refusal? Of(Exception failure)
    {
        for (var e = failure; e is not null; e = e.InnerException)
        {
            var refusal = e switch
            {
                AccessLostException => new Refusal(RefusalKind.Standing, new("", e.Message)),
                NotStoredException => new Refusal(RefusalKind.Rule, new("", e.Message)),
                DbUpdateConcurrencyException or OvertakenException => new Refusal(RefusalKind.Overtaken, Overtaken),
                SqliteException sqlite => OfSqlite(sqlite),
                PostgresException postgres => OfPostgres(postgres),
                _ => null,
            };
            if (refusal is not null)
            {
                return refusal;
            }
        }

        return StorageFailure.Of(failure) is { } trouble ? new(RefusalKind.StorageFailed, new("", trouble.Message)) : null;
    }

    /// <remarks>Source: https://www.sqlite.org/rescode.html (UNIQUE 2067, PRIMARYKEY 1555, FOREIGNKEY 787, CHECK 275, NOTNULL 1299, TRIGGER
    /// 1811)</remarks>
    private static Refusal? OfSqlite(SqliteException e) => e.SqliteExtendedErrorCode switch
    {
        2067 or 1555 or 787 => new(RefusalKind.Overtaken, Overtaken),
        // A row that others stand on is kept by a trigger of SQLite's own.
        1811 when e.Message.Contains("FOREIGN KEY", StringComparison.Ordinal) => new(RefusalKind.Overtaken, Overtaken),
        275 => new(RefusalKind.Rule, RuleWords.Of(e.Message)),
        1299 => new(RefusalKind.Rule, RuleWords.Other),
        _ => null,
    };

    /// <remarks>Source: https://www.postgresql.org/docs/current/errcodes-appendix.html (class 23, integrity; 22001, text too long; 40001,
    /// serialization; 40P01, deadlock)</remarks>
    private static Refusal? OfPostgres(PostgresException e) => e.SqlState switch
    {
        PostgresErrorCodes.UniqueViolation or PostgresErrorCodes.ForeignKeyViolation or PostgresErrorCodes.RestrictViolation
            or PostgresErrorCodes.SerializationFailure
            or PostgresErrorCodes.DeadlockDetected => new(RefusalKind.Overtaken, Overtaken),
        PostgresErrorCodes.CheckViolation => new(RefusalKind.Rule, RuleWords.Of(e.ConstraintName ?? "")),
        PostgresErrorCodes.NotNullViolation or PostgresErrorCodes.StringDataRightTruncation => new(RefusalKind.Rule, RuleWords.Other),
        _ => null,
    };
}

/// <summary>The rules of the tables, in words.</summary>
internal static class RuleWords
{
    public static readonly Problem Other = new("",
        "A value is missing or longer than the record holds, so nothing was saved. What you typed is kept here: shorten or complete it, "
            + "then save again.");

    private static readonly Dictionary<string, string> Rules = new(StringComparer.Ordinal)
    {
        ["CK_Beds_Area"] = "A bed's area is above 0, or left blank.",
        ["CK_Infestations_Area"] = "The area of an infestation is 0 or more.",
        ["CK_Infestations_Cover"] = "Cover is 0 to 100 %.",
        ["CK_Infestations_Stage"] = "A growth stage is 0 to 9, or left blank.",
        ["CK_Plans_Number"] = "Plans are numbered from 1.",
        ["CK_Prices_Plug"] = "The price of a plant is 0 or more, or left blank.",
        ["CK_Prices_Seed"] = "The price of seed is 0 or more, or left blank.",
        ["CK_Sightings_Count"] = "A count is 0 or more, or left blank.",
        ["CK_Sightings_Cover"] = "Cover is 0 m² or more.",
        ["CK_Sightings_Finding"] = "Only a growing plant has a cover.",
        ["CK_Sightings_Seed"] = "Seed collected is more than 0 g, or left blank.",
        ["CK_Sightings_Stage"] = "A growth stage is 0 to 9, or left blank.",
        ["CK_Tours_Place"] = "A tour goes along one street or through one yard.",
        ["CK_Treatments_Area"] = "Treated ground is 0 m² or more, or left blank.",
        ["CK_Treatments_Hours"] = "Hours of a treatment are 0 or more, or left blank.",
        ["CK_Walks_Effort"] = "A walk takes 1 minute or more.",
        ["CK_WeatherDays_Rain"] = "Rain is 0 mm or more, or left blank.",
        ["CK_Yards_Area"] = "A yard's area is above 0.",
        ["CK_Yards_Latitude"] = "Latitude is between −90 and 90 degrees.",
        ["CK_Yards_Lawn"] = "The lawn is 0 or more and no larger than the yard, or left blank.",
        ["CK_Yards_Longitude"] = "Longitude is between −180 and 180 degrees.",
    };

    /// <param name="told">What the database says: the name of the rule is in it.</param>
    public static Problem Of(string told) => Rules.FirstOrDefault(r => told.Contains(r.Key, StringComparison.Ordinal)).Value is { } rule
        ? new("", $"{rule} Nothing was saved; what you typed is kept here: correct it, then save again.") : Other;

    public static bool Knows(string rule) => Rules.ContainsKey(rule);
}
