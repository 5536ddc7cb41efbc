#!/usr/bin/env bash
# A throw-away PostgreSQL for tests, on a free port of the loopback.
#   tools/start_postgres.sh start FOLDER   makes and starts it in FOLDER (new or empty), prints its address
#   tools/start_postgres.sh stop FOLDER    stops it and removes FOLDER
# Started by root it runs as the user `postgres`, because PostgreSQL refuses root.
set -euo pipefail

usage() {
  sed -n '2,4p' "$0" | cut -c3- >&2
  exit 2
}

[ "$#" -eq 2 ] || usage
task=$1
folder=$2

programs=$(find /usr/lib/postgresql -mindepth 2 -maxdepth 2 -name bin 2>/dev/null | sort -V | tail -n 1)
[ -n "$programs" ] || programs=$(dirname "$(command -v initdb || echo missing/initdb)")
if [ ! -x "$programs/initdb" ]; then
  echo "no PostgreSQL here: install the package postgresql" >&2
  exit 1
fi

as_owner() {
  if [ "$(id -u)" -eq 0 ]; then
    runuser -u postgres -- "$@"
  else
    "$@"
  fi
}

case $task in
  start)
    mkdir -p "$folder"
    if [ -n "$(ls -A "$folder")" ]; then
      echo "$folder is not empty: give a new folder" >&2
      exit 1
    fi
    folder=$(cd "$folder" && pwd)
    if [ "$(id -u)" -eq 0 ]; then chown postgres "$folder"; fi
    chmod 700 "$folder"
    cd "$folder"
    port=$(python3 -c 'import socket
with socket.socket() as one:
    one.bind(("127.0.0.1", 0))
    print(one.getsockname()[1])')
    # No flushing to disk: what it holds is thrown away.
    as_owner "$programs/initdb" --pgdata data --username postgres --auth trust --encoding UTF8 --locale C \
      --no-sync >initdb.log
    as_owner "$programs/pg_ctl" start --pgdata data --log "$folder/server.log" --wait --silent --options \
      "-c listen_addresses=127.0.0.1 -c port=$port -c unix_socket_directories= -c fsync=off" >&2
    as_owner "$programs/createdb" --host 127.0.0.1 --port "$port" --username postgres drawerwright
    echo "postgresql://postgres@127.0.0.1:$port/drawerwright"
    ;;
  stop)
    # Only what was made here is removed.
    [ -f "$folder/data/PG_VERSION" ] && [ -f "$folder/initdb.log" ] || exit 0
    folder=$(cd "$folder" && pwd)
    cd "$folder"
    as_owner "$programs/pg_ctl" stop --pgdata data --mode immediate --silent || true
    cd /
    rm -rf -- "${folder:?}"
    ;;
  *)
    usage
    ;;
esac
