#!/usr/bin/env bash
# A day of 64 athletes on four racks, typed into the real window.
#
# Run by hand from the top of the project, on Linux with Xvfb, openbox, xdotool:
#   bash tests/desk_keys/window.sh
# MAXDAY_KEEP=DIR keeps both days. The keys are those of the test `desk_keys`; at the end the standings of the day
# that was typed are compared with those of the same day by `maxday apply`.
set -euo pipefail
display=${MAXDAY_DISPLAY:-:77}
work=${MAXDAY_KEEP:-$(mktemp -d)}
mkdir -p "$work"
running=()
finish() {
    kill "${running[@]}" 2>/dev/null || true
    [ -n "${MAXDAY_KEEP:-}" ] || rm -rf "$work"
}
trap finish EXIT

# The test builds the program too.
MAXDAY_WRITE_KEYS=$work/keys.txt cargo test --release --locked --test desk_keys -- \
    --exact a_max_day_on_four_racks_takes_few_keys
maxday=${CARGO_TARGET_DIR:-target}/release/maxday
sample=sample-meets/max-day

make_day() {
    eval "\"$maxday\" new \"$1\" $(cat $sample/new.txt)"
    "$maxday" roster "$1" $sample/roster.csv >"$work/roster.log"
}
make_day "$work/applied.maxday"
"$maxday" apply "$work/applied.maxday" $sample/acts.csv >/dev/null
# The roster is imported; all that follows is typed.
make_day "$work/typed.maxday"

Xvfb "$display" -screen 0 1366x768x24 >/dev/null 2>&1 &
running+=($!)
sleep 1
DISPLAY=$display openbox >/dev/null 2>&1 &
running+=($!)
sleep 1
DISPLAY=$display XDG_CONFIG_HOME=$work/config "$maxday" desk "$work/typed.maxday" &
desk=$!
running+=("$desk")
sleep 5

key_name() {
    case $1 in
        Enter) echo Return ;; Esc) echo Escape ;; PageDown) echo Next ;; PageUp) echo Prior ;;
        ctrl+PageDown) echo ctrl+Next ;; ' ') echo space ;; ';') echo semicolon ;;
        ':') echo colon ;; '=') echo equal ;; '-') echo minus ;; '.') echo period ;;
        '/') echo slash ;; '+') echo plus ;; "'") echo apostrophe ;; ',') echo comma ;;
        *) echo "$1" ;;
    esac
}
began=$SECONDS
{
    echo 'key F6'
    while IFS= read -r key; do
        if [ "$key" = pause ]; then
            echo 'sleep 1.2'
        else
            echo "key --delay 40 $(key_name "$key")"
            echo 'sleep 0.05'
        fi
    done <"$work/keys.txt"
} >"$work/script"
DISPLAY=$display xdotool "$work/script"
sleep 3
echo "$(grep -vc pause "$work/keys.txt") keys typed in $((SECONDS - began)) s"

kill "$desk"
wait "$desk" 2>/dev/null || true
"$maxday" check "$work/typed.maxday"
"$maxday" standings "$work/applied.maxday" >"$work/applied.csv"
"$maxday" standings "$work/typed.maxday" >"$work/typed.csv"
diff "$work/applied.csv" "$work/typed.csv"
echo "The standings of the typed day are those of the applied one."
