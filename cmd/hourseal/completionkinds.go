package main

import (
	"strings"

	"hourseal/record"
	"hourseal/record/schedule"
	"hourseal/render"
	"hourseal/sign"
)

// What may stand at each place of each command's line. A command that is added needs a
// row here, and an option that takes a value needs one, too: TestCompletionKnowsAll.

// paths says whether the shell completes names of files by itself.
type paths int

const (
	noPaths paths = iota
	files         // and the folders that lead to them
	folders
)

func (p paths) String() string { return [...]string{"-", "files", "folders"}[p] }

// kind is what may stand at a place: values that the program knows, and where it knows
// none that begin as typed, files.
type kind struct {
	values func(a *asked, typed string) []candidate // those that begin so
	paths  paths
}

var (
	free       = kind{} // a text, a date, an amount: nothing to offer
	aFile      = kind{paths: files}
	aFolder    = kind{paths: folders}
	aMachine   = kind{values: machinesOf}
	onRecord   = kind{values: recordedMachines}
	aRecord    = kind{values: recordsOf, paths: files}
	aJob       = kind{values: jobsOf, paths: files}
	aSchedule  = kind{values: schedulesOf}
	anySched   = kind{values: schedulesOf, paths: files}
	aTask      = kind{values: tasksOf}
	aSystem    = kind{values: systemsOf}
	aKey       = kind{values: keysOf, paths: files}
	aTrustName = kind{values: trustedNames}
	aYear      = kind{values: yearsOf}
)

// oneOf are words of which one is wanted.
func oneOf(words ...string) kind {
	return kind{values: func(*asked, string) []candidate {
		var found []candidate
		for _, word := range words {
			found = append(found, candidate{value: word})
		}
		return found
	}}
}

// keyed is a key and an equals sign, then one of some words, or what nobody can know.
func keyed(keys func(a *asked, typed string) []candidate, words ...string) kind {
	return kind{values: func(a *asked, typed string) []candidate {
		key, _, behind := strings.Cut(typed, "=")
		var found []candidate
		if behind {
			for _, word := range words {
				found = append(found, candidate{value: key + "=" + word})
			}
			return found
		}
		for _, c := range keys(a, typed) {
			found = append(found, candidate{c.value + "=", c.text})
		}
		return found
	}}
}

// argumentsOf are the arguments of each command that are no options, in their order. The
// last stands for all further ones where the command takes any number.
var argumentsOf = map[string][]kind{
	"attach":         {aJob, aFile},
	"check":          {aJob},
	"closeout":       {aMachine},
	"completion":     {oneOf(shells()...)},
	"demo":           {aFolder},
	"due":            {aMachine},
	"fluid convert":  {free},
	"fluid coolant":  {},
	"fluid correct":  {free},
	"fluid level":    {free},
	"fluid suits":    {},
	"history":        {aFile},
	"init":           {aFolder},
	"issue":          {aJob},
	"key list":       {},
	"key new":        {},
	"key recovery":   {},
	"key renew":      {},
	"key revoke":     {},
	"key show":       {},
	"label":          {aRecord},
	"ledger head":    {},
	"ledger path":    {onRecord},
	"manual":         {},
	"machine new":    {free},
	"page":           {},
	"report":         {aRecord},
	"schedule check": {anySched},
	"schedule list":  {},
	"schedule new":   {free},
	"schedule show":  {aSchedule},
	"show":           {aFile},
	"trust add":      {aFile},
	"trust list":     {},
	"trust remove":   {aTrustName},
	"verify":         {aFile},
	"waste":          {onRecord},
	"worksheet":      {aMachine},
}

// valuesOf are the values of options: of one command's, as "key revoke --why", or of
// every command's that has none of its own, as "--yard".
var valuesOf = map[string]kind{
	"--adds-to":         aRecord,
	"--after":           aFile,
	"--corrects":        aRecord,
	"--head":            aFile,
	"--ics":             aFile,
	"--jobsheet":        aFile,
	"--keys":            aFile,
	"--passphrase-file": aFile,
	"--received":        aFile,
	"--trust":           aFile,
	"--voids":           aRecord,
	"--with":            aFile,
	"--yard":            aFolder,
	"-o":                aFile,
	"page --program":    aFolder,
	"page --source":     aFolder,

	"--drain":  oneOf(drains...),
	"--glycol": oneOf(record.GlycolWords...),
	"--paper":  oneOf(record.PaperWords...),
	"--size":   oneOf(render.Label62x29.String(), render.Label40x40.String()),
	"--add":    oneOf("neat", "water"),

	"--key":            aKey,
	"--machine":        aMachine,
	"--system":         aSystem,
	"--task":           aTask,
	"--year":           aYear,
	"key revoke --why": oneOf(string(sign.WhyRetired), string(sign.WhyCompromised)),

	"--attach": aFile,
	"--files":  {paths: files},

	// The job of closeout, in options.
	"closeout --from":     aFile,
	"--reason":            oneOf(record.ReasonWords...),
	"closeout --task":     keyed(tasksOf, record.ResultWords...),
	"closeout --why":      keyed(tasksOf),
	"--answer":            keyed(tasksOf),
	"--look-again":        keyed(tasksOf),
	"--level-before":      keyed(systemsOf),
	"--level":             keyed(systemsOf),
	"--drained":           keyed(systemsOf, "not measured"),
	"--filter-in-drained": keyed(systemsOf, "yes", "no"),
	"--seen":              keyed(systemsOf, record.SightWords...),
	"--filled":            keyed(systemsOf),
	"--drawn-down":        keyed(systemsOf),
	"--product":           keyed(systemsOf),
	"--topped-up":         keyed(systemsOf),
	"--waste":             keyed(systemsOf),

	"schedule new --from":  aSchedule,
	"schedule new --basis": oneOf(schedule.BasisKinds()...),

	"--accept":       free,
	"--document":     free,
	"--edition":      free,
	"--page":         free,
	"--title":        free,
	"--as":           free,
	"--date":         free,
	"--file":         free,
	"--fuel-used":    free,
	"--job-number":   free,
	"--leak-check":   free,
	"--meter-change": free,
	"--notes":        free,
	"--other-work":   free,
	"--part":         free,
	"--place":        free,
	"--reading":      free,
	"--severe-duty":  free,
	"--technician":   free,

	"--asked":         free,
	"--at":            free,
	"--at-upper":      free,
	"--between-marks": free,
	"--density":       free,
	"--for":           free,
	"--from":          free,
	"--holds":         free,
	"--hours":         free,
	"--left":          free,
	"--name":          free,
	"--note":          free,
	"--oil":           free,
	"--on":            free,
	"--reads":         free,
	"--serial":        free,
	"--to":            free,
	"--until":         free,
	"--want":          free,
	"--why":           free,
}

// argument is what may stand as the n-th argument, counted from 0; false where there is
// none any more.
func (d documented) argument(n int) (kind, bool) {
	kinds := argumentsOf[d.path]
	switch {
	case len(kinds) == 0:
		return kind{}, false
	case n < len(kinds):
		return kinds[n], true
	}
	return kinds[len(kinds)-1], strings.Contains(d.ArgsUsage, "...")
}

// kindOf is what may stand as the value of an option.
func (d documented) kindOf(o option) kind {
	for _, before := range []string{d.path + " ", ""} {
		for _, name := range o.names {
			if k, ok := valuesOf[before+name]; ok {
				return k
			}
		}
	}
	return kind{}
}

// answer is what of a kind begins as typed, each behind the option that it belongs to.
func (k kind) answer(a *asked, option, typed string) ([]candidate, paths) {
	var found []candidate
	if k.values != nil {
		for _, c := range k.values(a, typed) {
			if strings.HasPrefix(c.value, typed) {
				found = append(found, candidate{option + c.value, c.text})
			}
		}
	}
	if len(found) > 0 {
		return found, noPaths
	}
	return nil, k.paths
}
