using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace CommonGround.Storage.Postgres.Migrations
{
    /// <inheritdoc />
    public partial class KeptColumns : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            // A column of a trigger cannot be altered under it.
            migrationBuilder.Sql("""
                DROP TRIGGER "ChangedRows_unaltered" ON "ChangedRows";
                """);

            migrationBuilder.AlterColumn<string>(
                name: "Print",
                table: "ChangedRows",
                type: "character varying(400)",
                maxLength: 400,
                nullable: false,
                oldClrType: typeof(string),
                oldType: "character varying(16)",
                oldMaxLength: 16);

            migrationBuilder.AddColumn<string>(
                name: "Columns",
                table: "ChangedRows",
                type: "text",
                nullable: true);

            migrationBuilder.Sql("""
                CREATE TRIGGER "ChangedRows_unaltered" BEFORE UPDATE ON "ChangedRows" FOR EACH ROW
                WHEN (NEW."Before" IS NOT NULL OR NEW."After" IS NOT NULL OR NEW."Print" NOT IN ('', OLD."Print") OR OLD."NeighbourhoodId" <> NEW."NeighbourhoodId" OR OLD."ChangeId" <> NEW."ChangeId"
                  OR OLD."Ordinal" <> NEW."Ordinal" OR OLD."Kind" <> NEW."Kind" OR OLD."RowKey" <> NEW."RowKey" OR OLD."Did" <> NEW."Did" OR OLD."YardId" IS DISTINCT FROM NEW."YardId"
                  OR OLD."Columns" IS DISTINCT FROM NEW."Columns")
                EXECUTE FUNCTION history_unaltered();
                """);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "Columns",
                table: "ChangedRows");

            migrationBuilder.AlterColumn<string>(
                name: "Print",
                table: "ChangedRows",
                type: "character varying(16)",
                maxLength: 16,
                nullable: false,
                oldClrType: typeof(string),
                oldType: "character varying(400)",
                oldMaxLength: 400);
        }
    }
}
