#!/usr/bin/env bash
# backup.sh FOLDER [DATA]: one more archive, made by hand or by a timer, in FOLDER; the last fourteen of these stay. The site may run meanwhile.
# The site makes its own backups too (Backup:Every). With PostgreSQL, set Database__Provider and Database__Connection as for the site.
set -euo pipefail
folder=${1:?Say where the archives go: backup.sh FOLDER [DATA]}
program=${COMMONGROUND:-/opt/commonground/CommonGround.Web.dll}
umask 077 # the archive holds the site's keys
mkdir -p "$folder"
dotnet "$program" --data "${2:-/var/lib/commonground}" backup "$folder/commonground-$(date +%F).zip"
# Only now, with a good new one there.
find "$folder" -maxdepth 1 -name 'commonground-????-??-??.zip' | sort | head -n -14 | xargs -r rm --
