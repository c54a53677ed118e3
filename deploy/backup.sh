#!/bin/sh
# Takes one backup into a folder, reads it once more, and then lets go of older ones; run by teamcircle-backup.service, by hand, or in a container.
#   backup.sh FOLDER            KEEP=35 newest are kept (each one counts, also those of today)
# Exit code 0 only where the new backup is whole. Nothing is let go of before that.
set -eu
umask 077
folder=$1
keep=${KEEP:-35}
cli=${TEAMCIRCLE_CLI:-/opt/teamcircle/TeamCircle.Cli}

[ "$keep" -ge 1 ] || { echo "KEEP must be 1 or more." >&2; exit 2; }
file=$folder/teamcircle-$(date -u +%Y%m%dT%H%M%SZ)
"$cli" backup "$file"
"$cli" check-backup "$file"
# The names sort by time. A backup that is being written bears another name (.unfinished) and is left alone.
find "$folder" -maxdepth 1 -type f -name 'teamcircle-????????T??????Z' | sort -r | tail -n "+$((keep + 1))" | while IFS= read -r old; do
  rm -- "$old"
  echo "Let go of $old."
done
