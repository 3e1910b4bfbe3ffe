package files

import "seamwright/lang/problem"

// What can be wrong with a file. None of it can be said by a pattern's text
// alone, so the examples are commands, to be typed in an empty folder.
const (
	Unreadable problem.Code = "F101" // no such file, no permission, damaged disk
	NotAFile   problem.Code = "F102" // a folder, a device, a pipe
	TooLarge   problem.Code = "F103"
	NotText    problem.Code = "F104" // a picture, a PDF, UTF-16
	Empty      problem.Code = "F105"
	Unwritable problem.Code = "F201" // full disk, read-only, a file in the way
)

// Codes explains each of them. An example that begins with "$ " is a list of
// commands, the last of which raises the code.
func Codes() []problem.Info {
	return []problem.Info{
		{
			Code: Unreadable, Title: "a file that can't be read",
			Rule:    "Every name on the command line must be that of a file which is there and may be read. Nothing is guessed in its place.",
			Source:  "practice",
			Example: "$ seamwright check boat.seam",
			Cured:   "$ seamwright new boat\n$ seamwright check boat.seam",
		},
		{
			Code: NotAFile, Title: "not a file",
			Rule:    "A pattern is a file, or standard input, written as -. A folder stands for the patterns in and below it and must hold at least one. Devices and pipes are refused by name, because some of them never end.",
			Source:  "practice",
			Example: "$ mkdir patterns\n$ seamwright check patterns",
			Cured:   "$ mkdir patterns\n$ seamwright new patterns/boat\n$ seamwright check patterns",
		},
		{
			Code: TooLarge, Title: "a file too large to be a pattern",
			Rule:    "A text larger than 1 MB is not read. A block of ten thousand pieces takes half a megabyte, so such a file is nearly always the wrong one, and reading it would only take time and memory.",
			Source:  "practice",
			Example: "$ head -c 2000000 /dev/zero | tr '\\0' ' ' > boat.seam\n$ seamwright check boat.seam",
			Cured:   "$ seamwright new boat\n$ seamwright check boat.seam",
		},
		{
			Code: NotText, Title: "a file that is not a text",
			Rule:    "A pattern is plain text in UTF-8. A picture, a PDF or the document of a word processor holds other bytes, and its letters can't be found among them.",
			Source:  "practice",
			Example: "$ printf '%%PDF-1.7' > boat.seam\n$ seamwright check boat.seam",
			Cured:   "$ seamwright new boat\n$ seamwright check boat.seam",
		},
		{
			Code: Empty, Title: "an empty file",
			Rule:    "A pattern needs at least one block or unit. A file without any words was probably saved by mistake, or not yet saved.",
			Source:  "practice",
			Example: "$ printf '' > boat.seam\n$ seamwright check boat.seam",
			Cured:   "$ seamwright new boat\n$ seamwright check boat.seam",
		},
		{
			Code: Unwritable, Title: "a place that can't be written",
			Rule:    "Results are put into place together or not at all. Where the disk is full or can only be read, where there is no permission, or where somebody else's file is in the way, nothing is changed: the last good results stay as they were.",
			Source:  "practice",
			Example: "$ seamwright new boat\n$ printf 'mine' > boat-out\n$ seamwright build boat.seam",
			Cured:   "$ seamwright new boat\n$ seamwright build boat.seam",
		},
	}
}
