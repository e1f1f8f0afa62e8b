#!/usr/bin/env bash
# restore.sh ARCHIVE NEWFOLDER: brings a backup back into a folder that holds no database yet, then checks it.
# With PostgreSQL, set Database__Provider and Database__Connection; the database named there must be empty or not yet made.
set -euo pipefail
archive=${1:?Say which archive: restore.sh ARCHIVE NEWFOLDER}
folder=${2:?Say into which new folder: restore.sh ARCHIVE NEWFOLDER}
program=${COMMONGROUND:-/opt/commonground/CommonGround.Web.dll}
umask 077
mkdir -p "$folder"
dotnet "$program" --data "$folder" restore "$archive"
dotnet "$program" --data "$folder" check
