# What the drills share; they source it. A drill works in a folder of its own under /tmp, on Unix sockets and one loopback port, and clears away behind itself.
#   PG_BIN            PostgreSQL's programs, with psql, pg_basebackup and the rest (/usr/lib/postgresql/15/bin)
#   DRILL_PORT        the loopback port of the portal (5399)
bin=${PG_BIN:-/usr/lib/postgresql/15/bin}
port=${DRILL_PORT:-5399}
work=$(mktemp -d /tmp/teamcircle-drill-XXXXXX)
chmod 755 "$work"
export TEAMCIRCLE_SEAL_KEY=$work/seal.key DOTNET_NOLOGO=1
portal=

as=() # PostgreSQL's programs refuse root
[ "$(id -u)" != 0 ] || as=(setpriv --reuid=postgres --regid=postgres --clear-groups)
as_server() { "${as[@]}" "$@"; }
own() { if [ "$(id -u)" = 0 ]; then chown -R postgres: "$@"; fi; }
cli() { dotnet src/TeamCircle.Cli/bin/Debug/net10.0/TeamCircle.Cli.dll "$@"; }
now() { date +%s.%N; }
since() { awk -v a="$1" -v b="$(now)" 'BEGIN { printf "%.1f s", b - a }'; }
size() { du -sh "$1" | cut -f1; }

# A server in $work/NAME, reached by the socket folder $work/NAME.socket; further arguments are lines of its settings.
make_server() { # name, settings...
  local name=$1
  shift
  mkdir -p "$work/$name.socket"
  own "$work/$name.socket"
  install -d -m 700 "$work/$name"
  own "$work/$name"
  as_server "$bin/initdb" -D "$work/$name" -U bootstrap -A trust -E UTF8 --locale=C.UTF-8 --no-instructions >"$work/initdb.txt"
  printf '%s\n' "listen_addresses = ''" "unix_socket_directories = '$work/$name.socket'" "timezone = 'UTC'" "$@" >>"$work/$name/postgresql.conf"
}
start_server() { as_server "$bin/pg_ctl" start -D "$work/$1" -l "$work/$1.socket/log" -w -t 600 -s; }
stop_server() { as_server "$bin/pg_ctl" stop -D "$work/$1" -m immediate -s >/dev/null 2>&1 || true; }
ask() { psql -X -At -h "$work/$1.socket" -U bootstrap -d "${3:-teamcircle}" -v ON_ERROR_STOP=1 -c "$2"; }
owner_of() { echo "Host=$work/$1.socket;Username=bootstrap;Database=teamcircle"; }
app_of() { echo "Host=$work/$1.socket;Username=teamcircle_app;Database=teamcircle"; }

# The portal, on what its further arguments set (NAME=value); ready when it returns.
start_portal() {
  env PlainHttp=true ASPNETCORE_URLS="http://localhost:$port" "$@" \
    dotnet src/TeamCircle.Web/bin/Debug/net10.0/TeamCircle.Web.dll --contentRoot "$PWD/src/TeamCircle.Web" >"$work/portal.txt" 2>&1 &
  portal=$!
  until grep -qs 'TeamCircle is at' "$work/portal.txt"; do
    kill -0 "$portal" 2>/dev/null || { cat "$work/portal.txt"; exit 1; }
    sleep 0.1
  done
}
stop_portal() {
  [ -z "$portal" ] || { kill -TERM "$portal" 2>/dev/null; wait "$portal" || true; }
  portal=
}

# Signs in as a mother of the demonstration, or of a made-up agency, and finds her child's name on her page.
sign_in() { # e-mail, child
  local jar=$work/jar token
  rm -f "$jar"
  token=$(curl -sS -c "$jar" "http://localhost:$port/sign-in" | grep -o 'name="__RequestVerificationToken" type="hidden" value="[^"]*"' | sed '1!d; s/.*value="//; s/"$//')
  curl -sS -o /dev/null -b "$jar" -c "$jar" --data-urlencode "Input.Email=${1:-ines@family.example}" --data-urlencode "Input.Password=herbs towel ribbons banana" \
    --data-urlencode "__RequestVerificationToken=$token" "http://localhost:$port/sign-in"
  curl -sS -L -b "$jar" "http://localhost:$port/" | grep -q "${2:-Wren}"
}

clear_away() {
  stop_portal
  for name in "$@"; do stop_server "$name"; done
  rm -rf "$work"
}
