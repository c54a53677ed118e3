#!/usr/bin/env bash
# An upgrade under load (T11 of docs/reliability.md): the portal of the first release, built here from the repository's history, serves the stored database of that release while it is
# migrated, beside a portal of this release, and ends. What came of it is printed. Build the tests first (dotnet build).
#   bash tests/drills/upgrade-under-load.sh [UPGRADES]       3; OLD_RELEASE names another commit to begin from
set -euo pipefail
cd "$(dirname "$0")/../.."
# The first release is the last commit before migrations could state the oldest portal that may serve on them.
old=${OLD_RELEASE:-$(git log --diff-filter=A --format=%H -1 -- src/TeamCircle.Data/Migrations/OldestPortalAttribute.cs)^}
work=$(mktemp -d /tmp/teamcircle-drill-XXXXXX)
trap 'git worktree remove --force "$work/source" 2>/dev/null || true; rm -rf "$work"' EXIT

git worktree add --quiet --detach "$work/source" "$old"
echo "the old portal: $(git -C "$work/source" log -1 --format='%h, %s')"
dotnet publish "$work/source/src/TeamCircle.Web" -c Release -r linux-x64 --no-self-contained -v quiet -o "$work/portal" >"$work/publish.txt" || { cat "$work/publish.txt"; exit 1; }
tests=tests/TeamCircle.Web.Tests/bin/Debug/net10.0
TEAMCIRCLE_OLD_PORTAL=$work/portal TEAMCIRCLE_FAULTS=${1:-3} dotnet "$tests/TeamCircle.Web.Tests.dll" -class '*UpgradeUnderLoadTests' || failed=$?
cat "$tests/faults/upgrade.txt"
exit "${failed:-0}"
