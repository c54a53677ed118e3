#!/usr/bin/env bash
# How long a ready-to-run portal takes from its command to its first page, and what it holds at rest: with its embedded PostgreSQL, files in the cache.
#   bash tests/drills/start.sh FOLDER ROUNDS [URL]
# FOLDER is a published portal: dotnet publish src/TeamCircle.Web -c Release -r linux-x64 --no-self-contained -p:PublishReadyToRun=true -o FOLDER
# The first start makes the database and the demonstration; the others find them.
set -euo pipefail
cd "$(dirname "$0")/../.."
portal=$1 rounds=${2:-5} url=${3:-http://localhost:5398}
work=$(mktemp -d /tmp/teamcircle-start-XXXXXX)
chmod 755 "$work"
export TEAMCIRCLE_DATA=$work/data ASPNETCORE_ENVIRONMENT=Development ASPNETCORE_URLS=$url DOTNET_NOLOGO=1
started=
trap '[ -z "$started" ] || kill "$started" 2>/dev/null; wait 2>/dev/null; rm -rf "$work"' EXIT

ms() { date +%s%3N; }

# Megabytes of processes; a page that several share is counted once, by its shares.
held() { # pids...
  local pid sum=0
  for pid in "$@"; do
    sum=$((sum + $(awk '/^Pss:/ {print $2}' "/proc/$pid/smaps_rollup" 2>/dev/null || echo 0)))
  done
  echo $((sum / 1024))
}
of_database() {
  local server
  server=$(head -1 "$work/data/postgres/cluster/postmaster.pid")
  echo "$server" $(pgrep -P "$server")
}

for round in $(seq 0 "$rounds"); do
  began=$(ms)
  dotnet "$portal/TeamCircle.Web.dll" --contentRoot "$PWD/src/TeamCircle.Web" >"$work/out" 2>&1 &
  started=$!
  until curl -fs -o /dev/null "$url/sign-in"; do
    kill -0 "$started" 2>/dev/null || { cat "$work/out"; exit 1; }
    read -rt 0.02 <> <(:) || true
  done
  page=$(($(ms) - began))
  read -rt 10 <> <(:) || true # what comes after a start is over: jobs, the compiler
  echo "start $round: first page after $page ms; at rest $(held "$started") MB of the portal and $(held $(of_database)) MB of its PostgreSQL"
  kill -TERM "$started"
  wait "$started" 2>/dev/null || true
  started=
done
