using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace CommonGround.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class Unwanted : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "Certainty",
                table: "Infestations",
                type: "TEXT",
                maxLength: 20,
                nullable: false,
                defaultValue: "Certain");

            migrationBuilder.CreateTable(
                name: "CaseSteps",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "INTEGER", nullable: false),
                    Id = table.Column<long>(type: "INTEGER", nullable: false),
                    BlockId = table.Column<long>(type: "INTEGER", nullable: false),
                    YardId = table.Column<long>(type: "INTEGER", nullable: true),
                    TaxonId = table.Column<int>(type: "INTEGER", nullable: false),
                    Kind = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    SaidOn = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    Until = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    Reason = table.Column<string>(type: "TEXT", maxLength: 500, nullable: false),
                    Who = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    RecordedById = table.Column<long>(type: "INTEGER", nullable: true),
                    RecordedAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_CaseSteps", x => new { x.NeighbourhoodId, x.Id });
                    table.ForeignKey(
                        name: "FK_CaseSteps_Blocks_NeighbourhoodId_BlockId",
                        columns: x => new { x.NeighbourhoodId, x.BlockId },
                        principalTable: "Blocks",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_CaseSteps_Members_NeighbourhoodId_RecordedById",
                        columns: x => new { x.NeighbourhoodId, x.RecordedById },
                        principalTable: "Members",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_CaseSteps_Taxa_NeighbourhoodId_TaxonId",
                        columns: x => new { x.NeighbourhoodId, x.TaxonId },
                        principalTable: "Taxa",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_CaseSteps_Yards_NeighbourhoodId_YardId",
                        columns: x => new { x.NeighbourhoodId, x.YardId },
                        principalTable: "Yards",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Treatments",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "INTEGER", nullable: false),
                    Id = table.Column<long>(type: "INTEGER", nullable: false),
                    BlockId = table.Column<long>(type: "INTEGER", nullable: false),
                    YardId = table.Column<long>(type: "INTEGER", nullable: true),
                    TaxonId = table.Column<int>(type: "INTEGER", nullable: false),
                    TreatedOn = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    Method = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    AreaSquareMetres = table.Column<double>(type: "REAL", nullable: true),
                    PersonHours = table.Column<double>(type: "REAL", nullable: true),
                    Who = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    LabelFollowed = table.Column<bool>(type: "INTEGER", nullable: false),
                    Qualification = table.Column<string>(type: "TEXT", maxLength: 300, nullable: false),
                    Remarks = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    RecordedById = table.Column<long>(type: "INTEGER", nullable: true),
                    RecordedAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Treatments", x => new { x.NeighbourhoodId, x.Id });
                    table.CheckConstraint("CK_Treatments_Area", "\"AreaSquareMetres\" IS NULL OR \"AreaSquareMetres\" >= 0");
                    table.CheckConstraint("CK_Treatments_Hours", "\"PersonHours\" IS NULL OR \"PersonHours\" >= 0");
                    table.ForeignKey(
                        name: "FK_Treatments_Blocks_NeighbourhoodId_BlockId",
                        columns: x => new { x.NeighbourhoodId, x.BlockId },
                        principalTable: "Blocks",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Treatments_Members_NeighbourhoodId_RecordedById",
                        columns: x => new { x.NeighbourhoodId, x.RecordedById },
                        principalTable: "Members",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Treatments_Taxa_NeighbourhoodId_TaxonId",
                        columns: x => new { x.NeighbourhoodId, x.TaxonId },
                        principalTable: "Taxa",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Treatments_Yards_NeighbourhoodId_YardId",
                        columns: x => new { x.NeighbourhoodId, x.YardId },
                        principalTable: "Yards",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "IX_CaseSteps_NeighbourhoodId_BlockId_YardId_TaxonId",
                table: "CaseSteps",
                columns: new[] { "NeighbourhoodId", "BlockId", "YardId", "TaxonId" });

            migrationBuilder.CreateIndex(
                name: "IX_CaseSteps_NeighbourhoodId_RecordedById",
                table: "CaseSteps",
                columns: new[] { "NeighbourhoodId", "RecordedById" });

            migrationBuilder.CreateIndex(
                name: "IX_CaseSteps_NeighbourhoodId_TaxonId",
                table: "CaseSteps",
                columns: new[] { "NeighbourhoodId", "TaxonId" });

            migrationBuilder.CreateIndex(
                name: "IX_CaseSteps_NeighbourhoodId_YardId",
                table: "CaseSteps",
                columns: new[] { "NeighbourhoodId", "YardId" });

            migrationBuilder.CreateIndex(
                name: "IX_Treatments_NeighbourhoodId_BlockId_YardId_TaxonId",
                table: "Treatments",
                columns: new[] { "NeighbourhoodId", "BlockId", "YardId", "TaxonId" });

            migrationBuilder.CreateIndex(
                name: "IX_Treatments_NeighbourhoodId_RecordedById",
                table: "Treatments",
                columns: new[] { "NeighbourhoodId", "RecordedById" });

            migrationBuilder.CreateIndex(
                name: "IX_Treatments_NeighbourhoodId_TaxonId",
                table: "Treatments",
                columns: new[] { "NeighbourhoodId", "TaxonId" });

            migrationBuilder.CreateIndex(
                name: "IX_Treatments_NeighbourhoodId_YardId",
                table: "Treatments",
                columns: new[] { "NeighbourhoodId", "YardId" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "CaseSteps");

            migrationBuilder.DropTable(
                name: "Treatments");

            migrationBuilder.DropColumn(
                name: "Certainty",
                table: "Infestations");
        }
    }
}
