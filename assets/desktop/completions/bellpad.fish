# Print an optspec for argparse to handle cmd's options that are independent of any subcommand.
function __fish_bellpad_global_optspecs
    string join \n h/help V/version
end

function __fish_bellpad_needs_command
    # Figure out if the current invocation already has a command.
    set -l cmd (commandline -opc)
    set -e cmd[1]
    argparse -s (__fish_bellpad_global_optspecs) -- $cmd 2>/dev/null
    or return
    if set -q argv[1]
        # Also print the command, so this can be used to figure out what it is.
        echo $argv[1]
        return 1
    end
    return 0
end

function __fish_bellpad_using_subcommand
    set -l cmd (__fish_bellpad_needs_command)
    test -z "$cmd"
    and return 1
    contains -- $cmd[1] $argv
end

complete -c bellpad -n "__fish_bellpad_needs_command" -s h -l help -d 'Print help'
complete -c bellpad -n "__fish_bellpad_needs_command" -s V -l version -d 'Print version'
complete -c bellpad -n "__fish_bellpad_needs_command" -a "new" -d 'Write a new dance of named figures'
complete -c bellpad -n "__fish_bellpad_needs_command" -a "pose" -d 'Print where everyone is, as JSON'
complete -c bellpad -n "__fish_bellpad_needs_command" -a "check" -d 'Look for faults'
complete -c bellpad -n "__fish_bellpad_needs_command" -a "watch" -d 'Tell where each figure goes wrong first'
complete -c bellpad -n "__fish_bellpad_needs_command" -a "still" -d 'Draw the floor at a count, or at many'
complete -c bellpad -n "__fish_bellpad_needs_command" -a "crib" -d 'Write out what each number does, in words'
complete -c bellpad -n "__fish_bellpad_needs_command" -a "page" -d 'Write a page that plays the dance on a phone'
complete -c bellpad -n "__fish_bellpad_needs_command" -a "moving" -d 'Write a figure as a moving picture'
complete -c bellpad -n "__fish_bellpad_needs_command" -a "sheet" -d 'Draw a figure as a sheet of diagrams to hand out'
complete -c bellpad -n "__fish_bellpad_needs_command" -a "notebook" -d 'Make a notebook of dances, as PDF'
complete -c bellpad -n "__fish_bellpad_needs_command" -a "stepping" -d 'Draw each step that a dance uses, count by count, at eye level, as PDF, SVG or PNG'
complete -c bellpad -n "__fish_bellpad_needs_command" -a "tapping" -d 'Draw the tapping of each figure as a table of beats, as PDF, SVG or PNG'
complete -c bellpad -n "__fish_bellpad_needs_command" -a "tune" -d 'Write the tune as sound, or as notes'
complete -c bellpad -n "__fish_bellpad_needs_command" -a "schema" -d 'Print the JSON Schema of the dance file'
complete -c bellpad -n "__fish_bellpad_needs_command" -a "desktop" -d 'Put the program into the menu of your desktop, or take it out again'
complete -c bellpad -n "__fish_bellpad_needs_command" -a "help" -d 'Print this message or the help of the given subcommand(s)'
complete -c bellpad -n "__fish_bellpad_using_subcommand new" -l title -d 'The title' -r
complete -c bellpad -n "__fish_bellpad_using_subcommand new" -l dancers -d 'How many dancers' -r
complete -c bellpad -n "__fish_bellpad_using_subcommand new" -l across -d 'Metres between the files' -r
complete -c bellpad -n "__fish_bellpad_using_subcommand new" -l along -d 'Metres from rank to rank' -r
complete -c bellpad -n "__fish_bellpad_using_subcommand new" -l figure -d 'A figure by name, with choices: NAME[:key=value,...]; give it once for each figure' -r
complete -c bellpad -n "__fish_bellpad_using_subcommand new" -s h -l help -d 'Print help'
complete -c bellpad -n "__fish_bellpad_using_subcommand pose" -l figure -d 'Only this figure, by id or name; bars are then its own' -r
complete -c bellpad -n "__fish_bellpad_using_subcommand pose" -l at -d 'One moment, BAR:COUNT' -r
complete -c bellpad -n "__fish_bellpad_using_subcommand pose" -l every -d 'From the start to the end, once in so many counts' -r
complete -c bellpad -n "__fish_bellpad_using_subcommand pose" -s h -l help -d 'Print help'
complete -c bellpad -n "__fish_bellpad_using_subcommand check" -l json -d 'Print a JSON list'
complete -c bellpad -n "__fish_bellpad_using_subcommand check" -s h -l help -d 'Print help'
complete -c bellpad -n "__fish_bellpad_using_subcommand watch" -l figure -d 'Only this figure, by id or name' -r
complete -c bellpad -n "__fish_bellpad_using_subcommand watch" -l dancer -d 'What this number alone has to watch' -r
complete -c bellpad -n "__fish_bellpad_using_subcommand watch" -l json -d 'Print a JSON list'
complete -c bellpad -n "__fish_bellpad_using_subcommand watch" -s h -l help -d 'Print help'
complete -c bellpad -n "__fish_bellpad_using_subcommand still" -l figure -d 'Only this figure, by id or name; bars are then its own' -r
complete -c bellpad -n "__fish_bellpad_using_subcommand still" -l at -d 'The moment, BAR:COUNT' -r
complete -c bellpad -n "__fish_bellpad_using_subcommand still" -l every -d 'From the start to the end, once in so many counts: OUT-1.png and so on; stills of an earlier run that are no longer part of them are taken away' -r
complete -c bellpad -n "__fish_bellpad_using_subcommand still" -s o -d 'The picture to write, .png or .svg' -r -F
complete -c bellpad -n "__fish_bellpad_using_subcommand still" -l size -d 'Pixels along each side' -r
complete -c bellpad -n "__fish_bellpad_using_subcommand still" -l theme -d 'The colours: chalk on slate, or ink on paper' -r -f -a "slate\t'Chalk on slate'
paper\t'Ink on paper'"
complete -c bellpad -n "__fish_bellpad_using_subcommand still" -l force -d 'Write numbered stills over files that this program did not write, too'
complete -c bellpad -n "__fish_bellpad_using_subcommand still" -l trails -d 'Draw the paths as well'
complete -c bellpad -n "__fish_bellpad_using_subcommand still" -s h -l help -d 'Print help (see more with \'--help\')'
complete -c bellpad -n "__fish_bellpad_using_subcommand crib" -l dancer -d 'Only this number, with nothing folded' -r
complete -c bellpad -n "__fish_bellpad_using_subcommand crib" -l figure -d 'Only this figure, by id or name; bars are then its own' -r
complete -c bellpad -n "__fish_bellpad_using_subcommand crib" -l gist -d 'A line for each figure'
complete -c bellpad -n "__fish_bellpad_using_subcommand crib" -l bars -d 'A clause for each bar'
complete -c bellpad -n "__fish_bellpad_using_subcommand crib" -l no-names -d 'Leave people\'s names out'
complete -c bellpad -n "__fish_bellpad_using_subcommand crib" -l no-watch -d 'With --dancer, leave out what that number has to watch for in each figure'
complete -c bellpad -n "__fish_bellpad_using_subcommand crib" -s h -l help -d 'Print help'
complete -c bellpad -n "__fish_bellpad_using_subcommand page" -s o -d 'The page to write, .html' -r -F
complete -c bellpad -n "__fish_bellpad_using_subcommand page" -l no-names -d 'Without the names of people'
complete -c bellpad -n "__fish_bellpad_using_subcommand page" -l no-watch -d 'Without what there is to watch for in each figure'
complete -c bellpad -n "__fish_bellpad_using_subcommand page" -s h -l help -d 'Print help'
complete -c bellpad -n "__fish_bellpad_using_subcommand moving" -l figure -d 'The figure, by id or name' -r
complete -c bellpad -n "__fish_bellpad_using_subcommand moving" -s o -d 'The moving picture to write, .png or .gif' -r -F
complete -c bellpad -n "__fish_bellpad_using_subcommand moving" -l seen -d 'From above, or at eye level' -r -f -a "above\t'The floor, from above'
front\t'Bodies at eye level, facing you'
behind\t'Bodies at eye level, from behind'
side\t'Bodies at eye level, from their right side'"
complete -c bellpad -n "__fish_bellpad_using_subcommand moving" -l dancer -d 'This number alone at eye level; from above, with a ring round it' -r
complete -c bellpad -n "__fish_bellpad_using_subcommand moving" -l size -d 'Pixels along each side' -r
complete -c bellpad -n "__fish_bellpad_using_subcommand moving" -l speed -d 'Percent of the tune\'s speed' -r
complete -c bellpad -n "__fish_bellpad_using_subcommand moving" -l fps -d 'Pictures a second' -r
complete -c bellpad -n "__fish_bellpad_using_subcommand moving" -l theme -d 'The colours: chalk on slate, or ink on paper' -r -f -a "slate\t'Chalk on slate'
paper\t'Ink on paper'"
complete -c bellpad -n "__fish_bellpad_using_subcommand moving" -s h -l help -d 'Print help (see more with \'--help\')'
complete -c bellpad -n "__fish_bellpad_using_subcommand sheet" -l figure -d 'Only this figure, by id or name' -r
complete -c bellpad -n "__fish_bellpad_using_subcommand sheet" -l dancer -d 'Instead, the page of one number, with that dancer\'s own way and words' -r
complete -c bellpad -n "__fish_bellpad_using_subcommand sheet" -s o -d 'The file to write; pictures of more pages are OUT, OUT-2 and so on, and pages of an earlier run that are no longer part of them are taken away' -r -F
complete -c bellpad -n "__fish_bellpad_using_subcommand sheet" -l every -d 'Counts from one diagram to the next; left out, one for each bar' -r
complete -c bellpad -n "__fish_bellpad_using_subcommand sheet" -l paper -d 'The size of the paper' -r -f -a "a4\t'210 by 297 mm'
letter\t'8.5 by 11 inches'"
complete -c bellpad -n "__fish_bellpad_using_subcommand sheet" -l words -d 'Put what each number does under the diagrams, in words'
complete -c bellpad -n "__fish_bellpad_using_subcommand sheet" -l whole -d 'Instead, the whole dance on one sheet: running order, figures in a line and a small diagram each, tune, stepping'
complete -c bellpad -n "__fish_bellpad_using_subcommand sheet" -l pocket -d 'With --dancer, that number\'s part for the pocket: a clause a bar, on a sheet that is folded twice'
complete -c bellpad -n "__fish_bellpad_using_subcommand sheet" -l no-names -d 'Without the names of people'
complete -c bellpad -n "__fish_bellpad_using_subcommand sheet" -l no-watch -d 'Without what there is to watch for in each figure, which stands on sheets and on a dancer\'s page'
complete -c bellpad -n "__fish_bellpad_using_subcommand sheet" -l force -d 'Write numbered pages over files that this program did not write, too'
complete -c bellpad -n "__fish_bellpad_using_subcommand sheet" -l landscape -d 'The paper on its long side'
complete -c bellpad -n "__fish_bellpad_using_subcommand sheet" -s h -l help -d 'Print help (see more with \'--help\')'
complete -c bellpad -n "__fish_bellpad_using_subcommand notebook" -s o -d 'The file to write' -r -F
complete -c bellpad -n "__fish_bellpad_using_subcommand notebook" -l every -d 'Counts from one diagram to the next; left out, one for each bar' -r
complete -c bellpad -n "__fish_bellpad_using_subcommand notebook" -l paper -d 'The size of the paper' -r -f -a "a4\t'210 by 297 mm'
letter\t'8.5 by 11 inches'"
complete -c bellpad -n "__fish_bellpad_using_subcommand notebook" -l landscape -d 'The paper on its long side'
complete -c bellpad -n "__fish_bellpad_using_subcommand notebook" -l no-names -d 'Without the names of people'
complete -c bellpad -n "__fish_bellpad_using_subcommand notebook" -l no-watch -d 'Without what there is to watch for in each figure'
complete -c bellpad -n "__fish_bellpad_using_subcommand notebook" -l abc -d 'With the ABC text of each tune under its notes, to be copied'
complete -c bellpad -n "__fish_bellpad_using_subcommand notebook" -s h -l help -d 'Print help (see more with \'--help\')'
complete -c bellpad -n "__fish_bellpad_using_subcommand stepping" -l dancer -d 'Only the steps of one number' -r
complete -c bellpad -n "__fish_bellpad_using_subcommand stepping" -s o -d 'The file to write; pictures of more pages are OUT, OUT-2 and so on' -r -F
complete -c bellpad -n "__fish_bellpad_using_subcommand stepping" -l paper -d 'The size of the paper' -r -f -a "a4\t'210 by 297 mm'
letter\t'8.5 by 11 inches'"
complete -c bellpad -n "__fish_bellpad_using_subcommand stepping" -l no-names -d 'Without the names of people'
complete -c bellpad -n "__fish_bellpad_using_subcommand stepping" -l force -d 'Write numbered pages over files that this program did not write, too'
complete -c bellpad -n "__fish_bellpad_using_subcommand stepping" -l landscape -d 'The paper on its long side'
complete -c bellpad -n "__fish_bellpad_using_subcommand stepping" -s h -l help -d 'Print help (see more with \'--help\')'
complete -c bellpad -n "__fish_bellpad_using_subcommand tapping" -l figure -d 'Only this figure, by id or name' -r
complete -c bellpad -n "__fish_bellpad_using_subcommand tapping" -s o -d 'The file to write; pictures of more pages are OUT, OUT-2 and so on' -r -F
complete -c bellpad -n "__fish_bellpad_using_subcommand tapping" -l paper -d 'The size of the paper' -r -f -a "a4\t'210 by 297 mm'
letter\t'8.5 by 11 inches'"
complete -c bellpad -n "__fish_bellpad_using_subcommand tapping" -l no-names -d 'Without the names of people'
complete -c bellpad -n "__fish_bellpad_using_subcommand tapping" -l force -d 'Write numbered pages over files that this program did not write, too'
complete -c bellpad -n "__fish_bellpad_using_subcommand tapping" -l landscape -d 'The paper on its long side'
complete -c bellpad -n "__fish_bellpad_using_subcommand tapping" -s h -l help -d 'Print help (see more with \'--help\')'
complete -c bellpad -n "__fish_bellpad_using_subcommand tune" -l figure -d 'Only this figure, by id or name, where it is first danced' -r
complete -c bellpad -n "__fish_bellpad_using_subcommand tune" -s o -d 'The file to write, .wav or .mid' -r -F
complete -c bellpad -n "__fish_bellpad_using_subcommand tune" -l speed -d 'How fast, in hundredths of the tune\'s own speed, at the same pitch' -r
complete -c bellpad -n "__fish_bellpad_using_subcommand tune" -l click -d 'With a click on each count, louder on the strong beats'
complete -c bellpad -n "__fish_bellpad_using_subcommand tune" -l no-taps -d 'Without the taps and claps of sticks and hands that meet'
complete -c bellpad -n "__fish_bellpad_using_subcommand tune" -s h -l help -d 'Print help'
complete -c bellpad -n "__fish_bellpad_using_subcommand schema" -s h -l help -d 'Print help'
complete -c bellpad -n "__fish_bellpad_using_subcommand desktop; and not __fish_seen_subcommand_from install remove help" -s h -l help -d 'Print help'
complete -c bellpad -n "__fish_bellpad_using_subcommand desktop; and not __fish_seen_subcommand_from install remove help" -f -a "install" -d 'Put menu entry, icon, kind of file, manual and completions into your own folders'
complete -c bellpad -n "__fish_bellpad_using_subcommand desktop; and not __fish_seen_subcommand_from install remove help" -f -a "remove" -d 'Take away what install put there'
complete -c bellpad -n "__fish_bellpad_using_subcommand desktop; and not __fish_seen_subcommand_from install remove help" -f -a "help" -d 'Print this message or the help of the given subcommand(s)'
complete -c bellpad -n "__fish_bellpad_using_subcommand desktop; and __fish_seen_subcommand_from install" -l force -d 'Write over files that are in the way, too'
complete -c bellpad -n "__fish_bellpad_using_subcommand desktop; and __fish_seen_subcommand_from install" -s h -l help -d 'Print help'
complete -c bellpad -n "__fish_bellpad_using_subcommand desktop; and __fish_seen_subcommand_from remove" -s h -l help -d 'Print help'
complete -c bellpad -n "__fish_bellpad_using_subcommand desktop; and __fish_seen_subcommand_from help" -f -a "install" -d 'Put menu entry, icon, kind of file, manual and completions into your own folders'
complete -c bellpad -n "__fish_bellpad_using_subcommand desktop; and __fish_seen_subcommand_from help" -f -a "remove" -d 'Take away what install put there'
complete -c bellpad -n "__fish_bellpad_using_subcommand desktop; and __fish_seen_subcommand_from help" -f -a "help" -d 'Print this message or the help of the given subcommand(s)'
complete -c bellpad -n "__fish_bellpad_using_subcommand help; and not __fish_seen_subcommand_from new pose check watch still crib page moving sheet notebook stepping tapping tune schema desktop help" -f -a "new" -d 'Write a new dance of named figures'
complete -c bellpad -n "__fish_bellpad_using_subcommand help; and not __fish_seen_subcommand_from new pose check watch still crib page moving sheet notebook stepping tapping tune schema desktop help" -f -a "pose" -d 'Print where everyone is, as JSON'
complete -c bellpad -n "__fish_bellpad_using_subcommand help; and not __fish_seen_subcommand_from new pose check watch still crib page moving sheet notebook stepping tapping tune schema desktop help" -f -a "check" -d 'Look for faults'
complete -c bellpad -n "__fish_bellpad_using_subcommand help; and not __fish_seen_subcommand_from new pose check watch still crib page moving sheet notebook stepping tapping tune schema desktop help" -f -a "watch" -d 'Tell where each figure goes wrong first'
complete -c bellpad -n "__fish_bellpad_using_subcommand help; and not __fish_seen_subcommand_from new pose check watch still crib page moving sheet notebook stepping tapping tune schema desktop help" -f -a "still" -d 'Draw the floor at a count, or at many'
complete -c bellpad -n "__fish_bellpad_using_subcommand help; and not __fish_seen_subcommand_from new pose check watch still crib page moving sheet notebook stepping tapping tune schema desktop help" -f -a "crib" -d 'Write out what each number does, in words'
complete -c bellpad -n "__fish_bellpad_using_subcommand help; and not __fish_seen_subcommand_from new pose check watch still crib page moving sheet notebook stepping tapping tune schema desktop help" -f -a "page" -d 'Write a page that plays the dance on a phone'
complete -c bellpad -n "__fish_bellpad_using_subcommand help; and not __fish_seen_subcommand_from new pose check watch still crib page moving sheet notebook stepping tapping tune schema desktop help" -f -a "moving" -d 'Write a figure as a moving picture'
complete -c bellpad -n "__fish_bellpad_using_subcommand help; and not __fish_seen_subcommand_from new pose check watch still crib page moving sheet notebook stepping tapping tune schema desktop help" -f -a "sheet" -d 'Draw a figure as a sheet of diagrams to hand out'
complete -c bellpad -n "__fish_bellpad_using_subcommand help; and not __fish_seen_subcommand_from new pose check watch still crib page moving sheet notebook stepping tapping tune schema desktop help" -f -a "notebook" -d 'Make a notebook of dances, as PDF'
complete -c bellpad -n "__fish_bellpad_using_subcommand help; and not __fish_seen_subcommand_from new pose check watch still crib page moving sheet notebook stepping tapping tune schema desktop help" -f -a "stepping" -d 'Draw each step that a dance uses, count by count, at eye level, as PDF, SVG or PNG'
complete -c bellpad -n "__fish_bellpad_using_subcommand help; and not __fish_seen_subcommand_from new pose check watch still crib page moving sheet notebook stepping tapping tune schema desktop help" -f -a "tapping" -d 'Draw the tapping of each figure as a table of beats, as PDF, SVG or PNG'
complete -c bellpad -n "__fish_bellpad_using_subcommand help; and not __fish_seen_subcommand_from new pose check watch still crib page moving sheet notebook stepping tapping tune schema desktop help" -f -a "tune" -d 'Write the tune as sound, or as notes'
complete -c bellpad -n "__fish_bellpad_using_subcommand help; and not __fish_seen_subcommand_from new pose check watch still crib page moving sheet notebook stepping tapping tune schema desktop help" -f -a "schema" -d 'Print the JSON Schema of the dance file'
complete -c bellpad -n "__fish_bellpad_using_subcommand help; and not __fish_seen_subcommand_from new pose check watch still crib page moving sheet notebook stepping tapping tune schema desktop help" -f -a "desktop" -d 'Put the program into the menu of your desktop, or take it out again'
complete -c bellpad -n "__fish_bellpad_using_subcommand help; and not __fish_seen_subcommand_from new pose check watch still crib page moving sheet notebook stepping tapping tune schema desktop help" -f -a "help" -d 'Print this message or the help of the given subcommand(s)'
complete -c bellpad -n "__fish_bellpad_using_subcommand help; and __fish_seen_subcommand_from desktop" -f -a "install" -d 'Put menu entry, icon, kind of file, manual and completions into your own folders'
complete -c bellpad -n "__fish_bellpad_using_subcommand help; and __fish_seen_subcommand_from desktop" -f -a "remove" -d 'Take away what install put there'
