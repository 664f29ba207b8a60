// Package verifytest reads the kit of verification cases in testdata/vectors, for
// tests of whatever verifies: the program, the library, the web page. Its own tests
// make the kit: go test ./verify/verifytest -update writes the files.
//
// What a case's file looks like stands in testdata/vectors/README.md, which is written
// for people who have nothing else of this program.
package verifytest
