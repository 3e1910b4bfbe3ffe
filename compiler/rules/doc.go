// Package rules asks whether a block that can be sewn is good to sew: one file
// a rule, with its code, its threshold, its source, a failing example and the
// same example cured. [Check] runs them all over a finished model.
//
// A rule is a method of [catalogue] that returns a [Rule], in a file of its own, and
// a line in the list of rules.go.
package rules
