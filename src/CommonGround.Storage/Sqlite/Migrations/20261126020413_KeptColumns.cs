using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace CommonGround.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class KeptColumns : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            // A column of a trigger cannot be altered under it.
            migrationBuilder.Sql("""
                DROP TRIGGER "ChangedRows_unaltered";
                """);

            migrationBuilder.AddColumn<string>(
                name: "Columns",
                table: "ChangedRows",
                type: "TEXT",
                nullable: true);

            migrationBuilder.Sql("""
                CREATE TRIGGER "ChangedRows_unaltered" BEFORE UPDATE ON "ChangedRows"
                WHEN NEW."Before" IS NOT NULL OR NEW."After" IS NOT NULL OR NEW."Print" NOT IN ('', OLD."Print") OR OLD."NeighbourhoodId" <> NEW."NeighbourhoodId" OR OLD."ChangeId" <> NEW."ChangeId"
                  OR OLD."Ordinal" <> NEW."Ordinal" OR OLD."Kind" <> NEW."Kind" OR OLD."RowKey" <> NEW."RowKey" OR OLD."Did" <> NEW."Did" OR OLD."YardId" IS NOT NEW."YardId"
                  OR OLD."Columns" IS NOT NEW."Columns"
                BEGIN SELECT RAISE(ABORT, 'History is not altered.'); END;
                """);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "Columns",
                table: "ChangedRows");
        }
    }
}
