//go:build !testclock

package main

import "time"

// clock is the one that the program goes by.
func clock() time.Time { return time.Now() }
