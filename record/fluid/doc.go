// Package fluid holds what fluids say: which oil suits a machine, and what the
// limits of a level and of a system's content are.
package fluid
