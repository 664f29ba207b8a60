# Completion of hourseal for fish: "hourseal completion fish" prints it.
function __hourseal_complete
    set -l words (commandline -opc)
    set -e words[1]
    set -l current (commandline -ct)
    set -l plain (string unescape -- $current); or set plain $current
    set -l answer (hourseal complete fish -- $words "$plain" 2>/dev/null)
    set -l option (string match -r -- '^--[^=]*=' $current)
    set -l path (string replace -- "$option" '' $current)
    switch "$answer[1]"
        case files
            printf "$option%s\n" (__fish_complete_path $path)
        case folders
            printf "$option%s\n" (__fish_complete_directories $path '')
    end
    set -e answer[1]
    test (count $answer) -gt 0; and printf '%s\n' $answer
end
complete -c hourseal -f -k -a '(__hourseal_complete)'
