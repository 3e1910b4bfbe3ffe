package main

// verbs lists what the program can do, in the order in which it is told.
func verbs() []verb {
	return []verb{
		{
			name: "build", args: "FILE... [flags]", run: build,
			short:   "compile patterns and write sheets, booklet, diagrams, tables and report",
			long:    "Compiles each pattern, checks it, and writes everything that is printed into\nNAME-out/ beside it. A folder stands for the patterns in it. Where a pattern has\nan error nothing is written, and the last good results stay.",
			example: "seamwright build boat.seam --size 8in --sheet a4",
		},
		{
			name: "check", args: "FILE... [flags]", run: check,
			short:   "compile and check, write nothing",
			long:    "Does all that build does, except writing. - is standard input. The JSON and\nSARIF formats go to standard output and list every problem.",
			example: "seamwright check --format sarif patterns/ > problems.sarif",
		},
		{
			name: "watch", args: "FILE [flags]", run: watchFile,
			short:   "build again whenever the pattern is saved, with a live page",
			long:    "Builds whenever the pattern, or a file that it uses, is saved. A problem is told\nonce, and where there is an error the last good results stay. A page in the\nbrowser, served to this machine only, shows the block, its sewing order, sheets,\ncutting and problems as they are. PDF files and the report follow in a pause, and at\nthe end. Ctrl-C ends it.",
			example: "seamwright watch boat.seam --open",
		},
		{
			name: "testsew", args: "FILE... [flags]", run: sewOnPaper,
			short:   "sew the printed sheets on paper, layer by layer, and judge the block",
			long:    "Builds each pattern without writing it, then reads the sheets and cutting tables\nas a maker does and sews them: lays, sews, trims, folds over, joins. It tells\nwhat it measured: whether the front is the picture, the cloth behind every seam,\nhow far patches reach, whether pins meet, how thick it gets, and whether sheets.pdf,\nwhich is printed, has the lines of the sheets that are sewn; and, from a table of\nerrors that you can change, how well points match for hands that are not perfect,\nand from which size the block is comfortable. A fault makes the exit code 1.",
			example: "seamwright testsew boat.seam --size 8in",
		},
		{
			name: "compare", args: "OLD NEW [flags]", run: compareVersions,
			short:   "what changed in print between two versions of patterns",
			long:    "Tells what a maker would find otherwise: lines, letters and numbers, copies,\npatches, cloth, words, sheets. OLD and NEW are files or folders, editions as\nFILE@N, or REV:PATH in git; REV alone stands for the path of the other. With one\npattern alone OLD is what was last released of it. The exit code is that of\ndiff: 0 nothing is otherwise, 1 something is, 2 it could not be compared.",
			example: "seamwright compare --format html HEAD boat.seam > changes.html",
		},
		{
			name: "release", args: "FILE... [flags]", run: release,
			short:   "record what an edition prints, and hold the pattern to it",
			long:    "Checks each pattern and sews it on paper, then records in NAME.editions.json\nbeside it what its edition prints. From then on `check` and `build` take any\nchange of that for an error, until the edition is raised. The record keeps the\nearlier editions too, so that letters about them can be answered.",
			example: "seamwright release boat.seam",
		},
		{
			name: "answer", args: "FILE [flags]", run: answerLetter,
			short:   "from what a maker's letter says, the likely cause and a reply",
			long:    "Computes what explains the measures that a letter tells: the scale of the print\nin one direction or both, finished against unfinished, another edition or size,\nallowances sewn too deep, a patch cut or laid otherwise. It tells the causes with\ntheir figures, and a reply that can be sent as it is. Editions are known from\ntheir release.",
			example: "seamwright answer boat.seam --size 8in --rule \"5 13/16in\" --measures \"8 1/4in\"",
		},
		{
			name: "fmt", args: "FILE... [flags]", run: format,
			short:   "lay patterns out in one way, comments kept",
			long:    "Rewrites each pattern in the usual layout: one statement on a line, aligned.\nIts meaning and its comments stay. - reads standard input and writes standard\noutput. A file with mistakes in its text is left alone.",
			example: "seamwright fmt --check patterns/",
		},
		{
			name: "number", args: "FILE... [flags]", run: number,
			short:   "write the sections of drawn units into the text",
			long:    "Rewrites each unit given by its lines as the joins and sections that were found\nfor it, comments kept. The block and its numbers stay as they are, and no later\nversion of the program divides it otherwise. A unit with parameters gets the\nsections of each set of values that it is used with. - reads standard input and\nwrites standard output.",
			example: "seamwright number --diff lantern.seam",
		},
		{
			name: "explain", args: "[CODE...]", run: explain,
			short:   "what a problem's code means, and how it is mended",
			long:    "Tells the rule behind a code, why it matters, where it comes from, the smallest\npattern that breaks it, and the same pattern mended. Without a code it lists all.",
			example: "seamwright explain F105",
		},
		{
			name: "new", args: "NAME [flags]", run: create,
			short:   "write a small pattern to begin with, or one after a drawing",
			long:    "Writes NAME.seam: a small pattern that builds, with comments that say what each\nline does. With --from it is a drawn block instead: straight lines, polygons,\nrectangles and straight paths of an SVG, put on a grid, with a fabric for each\nfill; what could not be taken is listed. A file that is there already is never\nreplaced.",
			example: "seamwright new lantern",
		},
		{
			name: "variants", args: "FILE PARAMETER=VALUES... [flags]", run: showVariants,
			short:   "one block with many values of its parameters, side by side",
			long:    "Draws the first block of a pattern, or of a family's example, once for every\nchoice of values, each picture with its sections, pieces, points to match and the\nsmallest comfortable size. A parameter is one of the block, or of a unit that is\nplaced. Values are a list, points=6,8,12, or a range, \"depth=0.3..0.6 by 0.1\".",
			example: "seamwright variants split_star points=6,8,12 \"depth=0.3..0.6 by 0.1\"",
		},
		{
			name: "families", args: "[NAME...] [flags]", run: showFamilies,
			short:   "the block families that come with the program",
			long:    "Lists the families that a pattern can use, or tells of each one named what it is,\nwhich parameters it takes, and an example. With --out it draws the examples.",
			example: "seamwright families log_cabin",
		},
		{
			name: "lsp", args: "", run: serveEditor,
			short:   "serve an editor: problems while you type, completion, renaming and more",
			long:    "Speaks the language server protocol on standard input and output. An editor\nstarts it; cmd/editors tells how for some of them.",
			example: "vim boat.seam",
		},
	}
}
