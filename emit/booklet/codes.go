package booklet

import (
	"fmt"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/booklet/words"
	"seamwright/lang/problem"
)

// The codes of the booklet's words.
const (
	NoLanguage problem.Code = "S301" // there are no words in the pattern's language
	NoMessage  problem.Code = "S302" // no sentence has the name that the author gives
	NoPicture  problem.Code = "S303" // an author's picture is not there, or is none
	NoPad      problem.Code = "S304" // a pad is for no block at any size
	LowPad     problem.Code = "S305" // a section has no room on a pad's sheets
)

const harbour = "fabric sky \"sky\" light #dfeaf0\nfabric sea \"sea\" dark #25525e\n" +
	"block b 4 x 4 finished 4in {\n  section A {\n    1 sky at n + (0, -1)\n    2 sea along w -- e\n  }\n}\n"

// Codes explains every code of this package.
func Codes() []problem.Info {
	return []problem.Info{
		{
			Code:    NoLanguage,
			Title:   "there are no words in this language",
			Rule:    "The sentences of the booklet come from a list for each language. Without one the booklet would be half in one language and half in another, so it is printed in English.",
			Source:  "practice",
			Example: "pattern \"Sky\" { language qq }\n" + harbour,
			Cured:   "pattern \"Sky\" { language de }\n" + harbour,
		},
		{
			Code:    NoMessage,
			Title:   "the booklet has no sentence of this name",
			Rule:    "`before` and `instead` name a sentence of the booklet, as its list of sentences has it. Your text would be printed nowhere.",
			Source:  "practice",
			Example: "pattern \"Sky\" { before trim_hwo, \"Breathe.\" }\n" + harbour,
			Cured:   "pattern \"Sky\" { before trim_how, \"Breathe.\" }\n" + harbour,
		},
		{
			Code:    NoPicture,
			Title:   "a picture that is not printed",
			Rule:    "`picture` names a PNG or JPEG file by its path from the pattern's own folder, inside the project. One that is missing, damaged or of another kind is left out, and the booklet is good without it.",
			Source:  "practice",
			Example: "pattern \"Sky\" { picture \"sewn.jpg\", \"Sewn in linen.\" }\n" + harbour,
			Cured:   "pattern \"Sky\" { note \"Sewn in linen.\" }\n" + harbour,
		},
		{
			Code:    NoPad,
			Title:   "a pad is for no block of the pattern",
			Rule:    "A pad holds the sheets of a block at a size that stands after `finished`. Where there is no such size nothing is printed for it.",
			Source:  "practice",
			Example: harbour + "pad { copies 10 of b size 6in }\n",
			Cured:   harbour + "pad { copies 10 of b size 4in }\n",
		},
		{
			Code:    LowPad,
			Title:   "a pad that is not made at a size",
			Rule:    "The sheets of a pad are glued along their heads and held by the press along the other edges: nothing is printed there. A section that only just fits the sheet at home may have no room between them. All else is made.",
			Source:  "practice",
			Example: "pad { glue 2in }\n" + strings.Replace(harbour, "4in", "7in", 1),
			Cured:   "pad { glue 1/4in  gripper 1/4in }\n" + strings.Replace(harbour, "4in", "7in", 1),
		},
	}
}

// NoRoom is the problem of a pad that is not made of a block at a size, for want
// of room on its sheets.
func NoRoom(p *pattern.Pattern, b *pattern.Block, s *pattern.Sized, pad *pattern.Pad) problem.Problem {
	return problem.Problem{
		Code: LowPad, Severity: problem.Warning, At: p.Place(pad.Source),
		Message: fmt.Sprintf("there is no pad of %s at %s: a section is too large for what glue and gripper leave of a sheet of %s", b.Name, s.Finished.Exact(), p.Settings.Sheet.Name),
		Help:    "name the `size` that the pad is for, make `glue` or `gripper` narrower, or print on a larger sheet",
	}
}

// Check returns the problems of a pattern's words.
func Check(p *pattern.Pattern) []problem.Problem {
	var problems []problem.Problem
	warn := func(code problem.Code, at problem.Place, message, help string) {
		problems = append(problems, problem.Problem{Code: code, Severity: problem.Warning, At: at, Message: message, Help: help})
	}
	language := p.Settings.Language
	if language == "" && len(p.About.Sayings) == 0 {
		return nil // the words need not be read
	}
	c, ok := words.In(language)
	if !ok {
		c, _ = words.In(words.Default)
		if language != "" {
			warn(NoLanguage, p.About.LanguageAt, fmt.Sprintf("the booklet has no words in the language `%s`, so it is printed in English", language),
				"write language "+strings.Join(words.Languages(), " or "))
		}
	}
	for _, s := range p.About.Sayings {
		if !c.Has(s.Name) {
			help := "names are such as trim_how, first_piece, paper_when: the list of sentences in the language's reference has them all"
			if near := problem.Nearest(s.Name, c.Names()); near != "" {
				help = "did you mean " + near + "?"
			}
			warn(NoMessage, s.At, fmt.Sprintf("the booklet has no sentence called `%s`, so your text for it is not printed", s.Name), help)
		}
	}
	return problems
}

// CheckPads reports pads that are for no block of the pattern.
func CheckPads(p *pattern.Pattern) (problems []problem.Problem) {
	for i := range p.Pads {
		pad, found := &p.Pads[i], false
		for b := range p.Blocks {
			for s := range p.Blocks[b].Sizes {
				found = found || pad.Holds(&p.Blocks[b], &p.Blocks[b].Sizes[s])
			}
		}
		if !found && len(p.Blocks) > 0 {
			problems = append(problems, problem.Problem{Code: NoPad, Severity: problem.Warning, At: p.Place(pad.Source),
				Message: fmt.Sprintf("this pad is for a block that finishes at %s, and there is none", pad.Finished.Exact()),
				Help:    "give a size that stands after `finished`, or leave the size out: then there is a pad of each"})
		}
	}
	return problems
}
