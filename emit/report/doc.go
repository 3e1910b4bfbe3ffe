// Package report tells what was made and what was checked: [Text] for people,
// [JSON] (pattern.json, see SCHEMA.md) for programs. Every figure is taken from
// the pattern; nothing is worked out again.
package report
