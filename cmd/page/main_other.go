//go:build !js

package main

import (
	"fmt"
	"os"
)

func main() {
	fmt.Fprintln(os.Stderr, "this program runs in a web page: make one with hourseal page -o verify.html")
	os.Exit(2)
}
