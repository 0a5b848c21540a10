# For scripts to read in: `need COMMAND=PACKAGE...` installs what is missing where it may; `stage NAME` begins a stage and tells
# what the one before took, by the clock and in processor time of all that it started; at the end all of them are told.

need() {
  local each missing=()
  for each in "$@"; do
    case ${each%%=*} in
      # no command tells whether a package of files is there
      /*) [ -e "${each%%=*}" ] || missing+=("${each#*=}") ;;
      *) command -v "${each%%=*}" >/dev/null || missing+=("${each#*=}") ;;
    esac
  done
  [ "${#missing[@]}" -gt 0 ] || return 0
  local list
  list=$(printf '%s\n' "${missing[@]}" | sort -u | tr '\n' ' ')
  if [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null; then
    stage "installing $list"
    apt-get update -qq
    # shellcheck disable=SC2086
    DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $list >/dev/null
  else
    echo "Missing packages. Run this, then again:"
    echo "  sudo apt-get install -y $list"
    exit 1
  fi
}

stage_name='' stage_from=0 stage_cpu=0 stage_table=() stage_times=$(mktemp)
trap stages_end EXIT

# seconds of processor time of every child that has ended, into cpu
cpu_now() {
  local u s
  # in this shell and no other: a child would tell its own children
  times > "$stage_times"
  { read -r _; read -r u s; } < "$stage_times"
  cpu=$(awk -v u="$u" -v s="$s" 'function f(t, p) { split(t, p, "m"); return p[1] * 60 + p[2] } BEGIN { printf "%d", f(u) + f(s) }')
}

stage_done() {
  local cpu
  cpu_now
  [ -z "$stage_name" ] ||
    stage_table+=("$(printf '%5d s  %5d s  %s' $((SECONDS - stage_from)) $((cpu - stage_cpu)) "$stage_name")")
  stage_from=$SECONDS stage_cpu=$cpu stage_name=''
}

stage() {
  stage_done
  [ "${#stage_table[@]}" = 0 ] || printf '   took %s\n' "${stage_table[-1]}"
  printf '\n== %s (%ss)\n' "$1" "$SECONDS"
  stage_name=$1
}

# However the script ends.
stages_end() {
  local code=$?
  [ "$code" = 0 ] || stage_name="$stage_name: FAILED"
  stage_done
  rm -f "$stage_times"
  printf '\n  clock  processor\n'
  [ "${#stage_table[@]}" = 0 ] || printf '%s\n' "${stage_table[@]}"
  printf '%5d s  %5d s  all\n' "$SECONDS" "$stage_cpu"
}
