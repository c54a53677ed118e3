#!/usr/bin/env bash
# Point-in-time restore with PostgreSQL's own tools: a base backup and the archived log of changes, after the server was killed and its files were deleted. Prints what was found, what was
# lost, and how long it took. Build the terminal program and the portal first (dotnet build).
#   bash tests/drills/point-in-time.sh [LEARNERS]           200 learners in each of three agencies; see servers.sh for the variables
set -euo pipefail
cd "$(dirname "$0")/../.."
. tests/drills/servers.sh
learners=${1:-200}
trap 'kill ${ticker:-} ${receiver:-} 2>/dev/null || true; clear_away lost found ended received' EXIT

mkdir "$work/archive" "$work/stream" "$work/base"
chmod 700 "$work/base"
own "$work/archive" "$work/stream" "$work/base"
# As in deploy/postgresql-archive.conf, but for the path.
make_server lost "archive_mode = on" "archive_timeout = 60" "archive_command = 'test ! -f $work/archive/%f && cp %p $work/archive/%f'"
start_server lost
ask lost "create database teamcircle" postgres >/dev/null
ConnectionStrings__TeamCircleOwner=$(owner_of lost) ConnectionStrings__TeamCircle=$(app_of lost) cli migrate
start_portal ConnectionStrings__TeamCircle="$(app_of lost)" TEAMCIRCLE_DATA="$work/portal" # seals the trail
seed() { ConnectionStrings__TeamCircle=$(app_of lost) cli seed --learners "$learners" --agency "$1" 2>/dev/null | head -1; }

seed FIRST
began=$(now)
as_server "$bin/pg_basebackup" -h "$work/lost.socket" -U bootstrap -D "$work/base" -X stream -c fast
echo "base backup: $(since "$began"), $(size "$work/base")"
as_server "$bin/pg_verifybackup" -q "$work/base" && echo "pg_verifybackup: whole"
seed BEFORE
until [ "$(ask lost "select count(*) from (select agency_id from portal.blocks group by 1) b")" = 2 ]; do sleep 0.2; done # sealed
target=$(ask lost "select clock_timestamp()")
seed AFTER

# One save every 50 ms, its own commit, counted where psql was told that it is done; the log goes to the archive and, beside it, to pg_receivewal.
ask lost "create table saves (n int generated always as identity, at timestamptz not null default clock_timestamp())" >/dev/null
as_server "$bin/pg_receivewal" -h "$work/lost.socket" -U bootstrap -D "$work/stream" --slot=drill --create-slot
"${as[@]}" "$bin/pg_receivewal" -h "$work/lost.socket" -U bootstrap -D "$work/stream" --slot=drill --synchronous >/dev/null 2>&1 &
receiver=$!
printf 'insert into saves default values returning n \\watch 0.05\n' | psql -X -At -h "$work/lost.socket" -U bootstrap -d teamcircle >"$work/acknowledged" &
ticker=$!
sleep 90
kill -9 "$(head -1 "$work/lost/postmaster.pid")"
wait "$ticker" 2>/dev/null || true
acknowledged=$(grep -cE '^[0-9]+$' "$work/acknowledged")
stop_portal
kill "$receiver" 2>/dev/null || true
wait "$receiver" 2>/dev/null || true
rm -rf "$work/lost"
echo "killed and deleted; $acknowledged saves of a second kind were acknowledged, 20 a second"

restore() { # name, where the log comes from, further settings...
  local name=$1 from=$2
  shift 2
  cp -a "$work/base" "$work/$name"
  mkdir "$work/$name.socket"
  own "$work/$name.socket"
  printf '%s\n' "unix_socket_directories = '$work/$name.socket'" "archive_mode = off" "restore_command = '$from'" "$@" >>"$work/$name/postgresql.conf"
  : >"$work/$name/recovery.signal"
  own "$work/$name"
  start_server "$name"
  until [ "$(ask "$name" "select pg_is_in_recovery()")" = f ]; do sleep 0.1; done
}

began=$(now)
restore found "cp $work/archive/%f %p" "recovery_target_time = '$target'" "recovery_target_action = promote"
echo "restored to the noted time: $(since "$began")"
echo "agencies there: $(ask found "select string_agg(code, ' ' order by code) from portal.agencies") (expected: BEFORE FIRST)"
ConnectionStrings__TeamCircle=$(app_of found) cli verify
start_portal ConnectionStrings__TeamCircle="$(app_of found)" TEAMCIRCLE_DATA="$work/portal"
echo "a portal on it: $(curl -sS "http://localhost:$port/health/ready")"
stop_portal
stop_server found

lost_in() { ask "$1" "select $acknowledged - count(*) from saves"; }
began=$(now)
restore ended "cp $work/archive/%f %p"
echo "restored to the end of the archive: $(since "$began"), lost $(lost_in ended) saves (at 20 a second; archive_timeout is 60 s)"
stop_server ended
for part in "$work"/stream/*.partial; do [ -e "$part" ] && mv "$part" "${part%.partial}"; done
began=$(now)
restore received "cp $work/archive/%f %p || cp $work/stream/%f %p"
echo "restored with what pg_receivewal had: $(since "$began"), lost $(lost_in received) saves"
