#!/usr/bin/env bash
# The backups drilled at size: many learners on the private server, backed up while rows are written, restored to an empty server of another version, and looked at there: rows and hashes
# (restore itself compares them), the sealed trail, and a sign-in. Then the private server's files, the same way. Build the terminal program and the portal first (dotnet build).
#   bash tests/drills/backup-at-size.sh [LEARNERS]           1000; see servers.sh for the variables
set -euo pipefail
cd "$(dirname "$0")/../.."
. tests/drills/servers.sh
learners=${1:-1000}
trap 'clear_away other' EXIT

export TEAMCIRCLE_DATA=$work/live
began=$(now)
ASPNETCORE_ENVIRONMENT=Development cli seed --learners "$learners" --agency SIZE 2>/dev/null | head -1
echo "seeded: $(since "$began"), cluster $(size "$work/live/postgres/cluster")"
start_portal ASPNETCORE_ENVIRONMENT=Development TEAMCIRCLE_DATA="$work/live"

import_on_and_on() { # what goes on meanwhile: one agency's files after the other
  local n=0
  until [ -e "$work/enough" ]; do
    n=$((n + 1))
    cli import tests/TeamCircle.Testing/World --agency "MEANWHILE$n" --today 2026-11-26 >/dev/null 2>&1
    echo "$n" >"$work/imports"
  done
}
import_on_and_on &
load=$!
began=$(now)
cli backup "$work/backup" 2>/dev/null
echo "backup while rows are written: $(since "$began"), $(size "$work/backup")"
began=$(now)
cli check-backup "$work/backup"
echo "check-backup: $(since "$began")"
began=$(now)
cli base-backup "$work/copy"
echo "base-backup while rows are written: $(since "$began"), $(size "$work/copy")"
touch "$work/enough"
wait "$load" || true
echo "(imports of an agency's files meanwhile: $(cat "$work/imports"))"
stop_portal
unset TEAMCIRCLE_DATA

make_server other
start_server other
ask other "create database teamcircle" postgres >/dev/null
export ConnectionStrings__TeamCircleOwner=$(owner_of other) ConnectionStrings__TeamCircle=$(app_of other)
began=$(now)
cli restore "$work/backup" 2>/dev/null
echo "restored to PostgreSQL $(ask other "show server_version"), every table counted and hashed: $(since "$began")"
cli migrate
began=$(now)
cli verify
echo "verify: $(since "$began")"
start_portal ASPNETCORE_ENVIRONMENT=Development TEAMCIRCLE_DATA="$work/portal" # the demonstration is let in nowhere else
sign_in family@load.example "Learner: who comes"
echo "a mother signed in and found her child"
stop_portal
unset ConnectionStrings__TeamCircleOwner ConnectionStrings__TeamCircle

export TEAMCIRCLE_DATA=$work/copy
began=$(now)
start_portal ASPNETCORE_ENVIRONMENT=Development TEAMCIRCLE_DATA="$work/copy"
echo "a portal started on the copied files: $(since "$began")"
sign_in family@load.example "Learner: who comes"
echo "a mother signed in and found her child"
cli verify
