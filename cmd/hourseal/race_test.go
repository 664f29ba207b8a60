//go:build race

package main

// The program under test is built as its tests are.
func init() { buildFlags = append(buildFlags, "-race") }
