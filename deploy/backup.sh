#!/usr/bin/env bash
# backup.sh FOLDER [DATA]: one archive a day in FOLDER, the last fourteen kept. The site may run meanwhile.
set -euo pipefail
folder=${1:?Say where the archives go: backup.sh FOLDER [DATA]}
program=${COMMONGROUND:-/opt/commonground/CommonGround.Web.dll}
mkdir -p "$folder"
dotnet "$program" --data "${2:-/var/lib/commonground}" backup "$folder/commonground-$(date +%F).zip"
find "$folder" -maxdepth 1 -name 'commonground-????-??-??.zip' | sort | head -n -14 | xargs -r rm --
