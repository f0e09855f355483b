// Package validate checks drafts of garments before the first stitch, and
// chart rows before they are merged. A check is a set of rules, each with a
// stable code; what a rule finds is a [Finding], made of facts without words.
package validate
