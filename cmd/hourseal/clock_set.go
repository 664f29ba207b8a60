//go:build testclock

package main

import (
	"fmt"
	"os"
	"time"
)

// clock is the one that TEST_NOW sets, RFC 3339: of the program that tests build for
// themselves, and of no other.
func clock() time.Time {
	text := os.Getenv("TEST_NOW")
	if text == "" {
		return time.Now()
	}
	at, err := time.Parse(time.RFC3339, text)
	if err != nil {
		fmt.Fprintf(os.Stderr, "TEST_NOW: %v\n", err)
		os.Exit(99)
	}
	return at
}
