// Package recordtest makes records for tests: of the invented yard, the least
// and the most that a record can say, and any others that are valid.
package recordtest
