#compdef hourseal
# Completion of hourseal for zsh: "hourseal completion zsh" prints it.
_hourseal() {
    local program=hourseal line value text
    local -a answer whole begun
    (( $+commands[hourseal] )) || program=${(Q)words[1]}
    local -a before
    (( CURRENT > 2 )) && before=("${(@Q)words[2,CURRENT-1]}")
    answer=("${(@f)$(${~program} complete zsh -- "${before[@]}" "${(Q)PREFIX}" 2>/dev/null)}")
    for line in "${(@)answer[2,-1]}"; do
        value=${line%%$'\t'*} text=${line#*$'\t'}
        value=${${value//\\/\\\\}//:/\\:}
        if [[ $value == *[/=] ]]; then
            begun+=("$value:$text")
        else
            whole+=("$value:$text")
        fi
    done
    local ret=1
    (( $#whole )) && _describe -V -t values hourseal whole && ret=0
    (( $#begun )) && _describe -V -t values hourseal begun -S '' && ret=0
    case $answer[1] in
        files | folders)
            [[ $PREFIX == --*=* ]] && compset -P '*='
            if [[ $answer[1] == files ]]; then
                _files && ret=0
            else
                _files -/ && ret=0
            fi
            ;;
    esac
    return ret
}
if [[ $funcstack[1] == _hourseal ]]; then
    _hourseal "$@"
else
    compdef _hourseal hourseal
fi
