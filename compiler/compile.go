package compiler

import (
	"seamwright/compiler/cutting"
	"seamwright/compiler/eval"
	"seamwright/compiler/parallel"
	"seamwright/compiler/pattern"
	"seamwright/compiler/piecing"
	"seamwright/compiler/pressing"
	"seamwright/lang"
	"seamwright/lang/problem"
)

// A Loader finds the text that a `use` names. From is the file that says so;
// path is as written, without ".seam". It returns nil and a message for people
// where there is none to be had.
type Loader interface {
	Load(from *problem.Source, path string) (*problem.Source, string)
}

// A PictureLoader is a Loader that finds the author's pictures too: the bytes of a
// file, or "" and a message for people. Path is as written.
type PictureLoader interface {
	Loader
	Picture(from *problem.Source, path string) (data, why string)
}

// Compile turns a text into a checked pattern. The pattern is nil where any
// problem is an error. Problems are sorted.
func Compile(src *problem.Source, load Loader) (*pattern.Pattern, []problem.Problem) {
	file, problems := lang.Parse(src)
	result := eval.Evaluate(file, loading(load))
	problems = append(problems, result.Problems...)
	made, more := piecing.Make(result)
	read := problems
	problems = append(problems, more...)
	problems = newUnread(file, problems).drop(problems) // what only follows from mistakes of the text
	if !problem.Failed(problems) {
		large := result.Pattern.Pieces() >= parallel.Worth
		parallel.Do(2, large, func(i int) {
			if i == 0 {
				cutting.Cut(&result.Pattern) // fills in patches
			} else {
				pressing.Press(&result.Pattern) // fills in joins
			}
		})
		if again, more := settle(result, made); again != nil {
			cutting.Cut(&result.Pattern)
			problems = append(read, more...)
		}
		problems = append(problems, judge(src, result)...)
	}
	problem.Sort(problems)
	if pictures, ok := load.(PictureLoader); ok {
		for i := range result.Pattern.About.Pictures {
			p := &result.Pattern.About.Pictures[i]
			p.Data, p.Why = pictures.Picture(src, p.File)
		}
	}
	if problem.Failed(problems) {
		return nil, problems
	}
	p := result.Pattern // by itself: the rest of the result can be given up
	return &p, problems
}

func loading(load Loader) eval.Loader {
	if load == nil {
		return nil
	}
	return load.Load
}
