# Completion of hourseal for bash: "hourseal completion bash" prints it. Works with and
# without the package bash-completion.
_hourseal() {
    local line=${COMP_LINE:0:COMP_POINT} raw=${COMP_WORDS[COMP_CWORD]} word value i
    local -a words=() found=()
    # Bash breaks words at = and : too. What no blank parts belongs together.
    for ((i = 0; i <= COMP_CWORD; i++)); do
        word=${COMP_WORDS[i]}
        if [[ $i -eq 0 || $line == [[:space:]]* ]]; then
            line=${line#"${line%%[![:space:]]*}"}
            words+=("")
        fi
        [[ $i -eq $COMP_CWORD ]] && word=$line
        words[${#words[@]}-1]+=$word
        line=${line#"$word"}
    done
    local current=${words[${#words[@]}-1]} prefix=
    case $raw in
        = | :) prefix=$current ;;
        *) [[ $current == *"$raw" ]] && prefix=${current%"$raw"} ;;
    esac
    local program=hourseal kind=
    type -P "$1" >/dev/null 2>&1 && program=$1
    {
        IFS= read -r kind
        while IFS=$'\t' read -r value _; do
            value=${value#"$prefix"}
            case $raw in
                \'*) value=${value//\'/\'\\\'\'} ;;
                \"*)
                    value=${value//\\/\\\\} value=${value//\"/\\\"}
                    value=${value//\$/\\\$} value=${value//\`/\\\`}
                    ;;
                *) printf -v value %q "$value" ;;
            esac
            found+=("$value")
        done
    } < <("$program" complete bash -- "${words[@]:1}" 2>/dev/null)
    COMPREPLY=("${found[@]}")
    type compopt >/dev/null 2>&1 || return 0
    [[ ${#found[@]} -eq 1 && ${found[0]} == *[/=] ]] && compopt -o nospace
    compopt -o nosort 2>/dev/null # from bash 4.4 on
    case $kind in
        files) ;;
        folders) compopt +o default +o bashdefault -o dirnames ;;
        *) compopt +o default +o bashdefault ;;
    esac
    return 0
}
complete -o bashdefault -o default -F _hourseal hourseal
