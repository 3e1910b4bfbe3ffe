// Package watch builds again whenever a file that the last build has read holds
// something else.
//
// It watches folders, never files: most editors save by writing a new file and
// renaming it over the old one, and a watch on the old one is deaf from then on.
// What an event says is not believed either; it only makes [Run] look, and what
// counts is the content. So it does not matter how an editor saves, and a save
// that changes nothing builds nothing.
package watch
