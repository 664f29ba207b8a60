package main

import (
	"errors"
	"slices"

	"hourseal/record/jobsheet"
	"hourseal/record/ledger"
	"hourseal/sign"
	"hourseal/verify/source"
)

// exitCode is what the program ends with; the README's table says what each
// means.
type exitCode int

const (
	exitOK            exitCode = 0
	exitFailed        exitCode = 1 // could not do it
	exitUsage         exitCode = 2 // used wrongly, or an input is malformed or unreadable
	exitNo            exitCode = 3 // altered or forged; cannot be true; broken chain
	exitUnknownSigner exitCode = 4
	exitKeyNotValid   exitCode = 5
	exitNotAsked      exitCode = 6 // genuine, but not what was asked about
	exitDecide        exitCode = 7 // a person has to decide

	// 128 and the number of the signal that ended the run: see interrupt.go.
	exitHungUp      exitCode = 129
	exitInterrupted exitCode = 130
	exitTerminated  exitCode = 143
)

// exitMeanings is what each exit code means, as README says it too.
var exitMeanings = []struct {
	code    exitCode
	meaning string
}{
	{exitOK, "unaltered, and you know the signer; a job can be issued; nothing recorded as due, overdue or missing"},
	{exitFailed, "could not do it"},
	{exitUsage, "used wrongly, or an input is malformed, unreadable, or ends before all is answered"},
	{exitNo, "altered or forged; a job that cannot be true; a broken chain of records"},
	{exitUnknownSigner, "intact, but the signer is not known to you"},
	{exitKeyNotValid, "intact, but the signer's key was not valid for that date, or others have it and nothing shows that the record is older"},
	{exitNotAsked, "genuine, but not what you asked about: another machine, or the PDF is not, or could not be shown to be, the page of its record, or a file beside it is not the one that was signed"},
	{exitDecide, "a person has to give a reason first, or said not to sign; something is due; something was overdue, or is missing"},
	{exitInterrupted, "interrupted with Ctrl-C, between two writes, never within one; 143 when told to end (SIGTERM), 129 when the terminal was closed (SIGHUP)"},
}

// worstFirst is the order in which one outcome outweighs another.
var worstFirst = []exitCode{exitNo, exitFailed, exitUsage, exitKeyNotValid, exitUnknownSigner, exitNotAsked, exitDecide, exitOK}

func worse(a, b exitCode) exitCode {
	return worstFirst[min(slices.Index(worstFirst, a), slices.Index(worstFirst, b))]
}

// usageError says that the program was used wrongly, and what to type instead.
type usageError struct{ message, hint string }

func (e usageError) Error() string { return e.message }

// withHint is an error with what to type about it; the exit code is the error's own.
type withHint struct {
	error
	hint string
}

func (e withHint) Unwrap() error { return e.error }

// codeOf maps an error to the exit code for it.
func codeOf(err error) exitCode {
	switch {
	case err == nil:
		return exitOK
	case errors.As(err, new(usageError)), errors.As(err, new(jobsheet.Faults)), errors.As(err, new(sign.Faults)),
		errors.As(err, new(*source.InputError)):
		return exitUsage
	case errors.As(err, new(*ledger.DamagedError)), errors.Is(err, sign.ErrBadSignature), errors.Is(err, sign.ErrWeakKey):
		return exitNo
	default:
		return exitFailed
	}
}

// hintOf is what to do about an error, "" when its words say it all.
func hintOf(err error) string {
	var usage usageError
	if errors.As(err, &usage) {
		return usage.hint
	}
	var hinted withHint
	if errors.As(err, &hinted) {
		return hinted.hint
	}
	return source.Hint(err)
}
