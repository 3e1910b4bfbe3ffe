// Package revision reads files as they were at a revision of git, by asking the
// program git. Paths are from the top of the repository, with forward slashes.
package revision
