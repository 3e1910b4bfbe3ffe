package eval

import (
	"math"
	"slices"
	"strings"
	"testing"

	"seamwright/compiler/plane"
	"seamwright/compiler/value"

	"pgregory.net/rapid"
)

// holds is a program of checks: each must be true.
func holds(t *testing.T, checks ...string) {
	t.Helper()
	for _, c := range checks {
		text := sky + "block b 8 x 4 finished 4in {\n  check " + c + " \"no\"\n  section A { 1 sky at c }\n}\n"
		if r := evaluate(text, nil); len(r.Problems) > 0 {
			t.Errorf("%s\n%s", c, show(r.Problems))
		}
	}
}

func TestChecksCanFail(t *testing.T) {
	want(t, sky+"block b 8 x 4 finished 4in {\n  check mid(n, s) == ne \"no\"\n  section A { 1 sky at c }\n}\n", nil, "L244 3 no")
}

func TestNumbers(t *testing.T) {
	holds(t,
		"2 1/2 == 2.5", "8/1/2 == 4", "8/2 1/2 == 3.2", "-2 1/2 == 0 - 2.5", "1/3 + 1/3 + 1/3 == 1", "0.1 + 0.2 == 0.3",
		"2 - 3 - 4 == -5", "2 + 3 * 4 == 14", "not 1 > 2", "1 < 2 and 2 <= 2 or false", "true or 1/0 == 1", "not (false and 1/0 == 1)",
		"25.4mm == 1in", "2.54cm == 1in", "1in + 1in == 2in", "3 * 2in == 6in", "6in / 2in == 3", "1in / 4 == 1/4in",
		"45deg + 45deg == 90deg", "90deg / 45deg == 2", "-90deg == 0deg - 90deg",
		"(1, 2) + (3, 4) == (4, 6)", "2 * (1, 2) == (2, 4)", "(2, 4) / 2 == (1, 2)", "-(1, 2) == (-1, -2)", "(1, 2).x + (1, 2).y == 3",
		"if 1 > 2 then false else true", "\"a\" == \"a\"", "\"a\" != \"b\"", "sky == sky", "(nw -- se) == (nw -- se)", "true == (not false)",
		"1000000 * 1000000 * 1000000 * 1000000 > 0", // beyond 64 bits: no longer exact, but not wrong
	)
}

func TestHelpersByExample(t *testing.T) {
	holds(t,
		"abs(-2) == 2", "abs(2in - 3in) == 1in", "abs(-45deg) == 45deg",
		"between(sw, ne, 1/4) == (2, 1)", "between(sw -- ne, 1) == ne", "between(sw, ne, -1) == (-8, -4)",
		"ceil(2.1) == 3", "ceil(-2.1) == -2", "floor(2.9) == 2", "floor(-2.1) == -3", "floor(3 * (1/3)) == 1", "floor(sqrt(2) * sqrt(2)) == 2",
		"cos(60deg) == 1/2", "cos(90deg) == 0", "cos(720deg) == 1", "sin(30deg) == 1/2", "sin(-90deg) == -1", "tan(45deg) == 1", "tan(135deg) == -1",
		"abs(tan(60deg) - sqrt(3)) < 0.000001",
		"direction(w, e) == 0deg", "direction(e, w) == 180deg", "direction(s -- n) == 90deg", "direction((0, 0), (1, -1)) == 315deg",
		"distance(sw, (3, 4)) == 5", "distance(north) == 8", "distance(sw, north) == 4", "distance((-3, 9), south) == 9",
		"even(4)", "even(0)", "even(-2)", "odd(3)", "odd(-1)", "not odd(2)",
		"foot(c, south) == s", "foot((3, 9), (0, 0) -- (1, 0)) == (3, 0)",
		"inset(south, 1) == ((0, 1) -- (8, 1))", "inset(east, 1) == ((7, 0) -- (7, 4))", "inset(north, 1) == ((8, 3) -- (0, 3))", "inset(west, 2) == ((2, 4) -- (2, 0))",
		"inset(south, -1) == ((0, -1) -- (8, -1))", "inset(se -- sw, 1) == ((8, 1) -- (0, 1))",
		"max(1, 3, 2) == 3", "max(1in, 3cm) == 3cm", "min(1, 3, 2) == 1", "min(2deg) == 2deg",
		"meet(w -- e, n -- s) == c", "meet((0, 0) -- (1, 1), (0, 4) -- (1, 3)) == (2, 2)", // the lines go on
		"mid(nw, se) == c", "mid(north) == n",
		"mod(7, 4) == 3", "mod(-1, 4) == 3", "mod(450deg, 360deg) == 90deg", "mod(2.5, 1) == 0.5", "mod(5in, 2in) == 1in",
		"parallel(south, c) == ((4, 2) -- (12, 2))",
		"pick(2, 10, 20, 30) == 20", "pick(1, sky) == sky", "pick(3, n, s, c) == c",
		"polar(2, 90deg) == (0, 2)", "c + polar(2, 180deg) == (2, 2)", "polar(1, 45deg).x == polar(1, 45deg).y", "polar(2, 30deg).y == 1",
		"reflect((1, 3), n -- s) == (7, 3)", "reflect(west, n -- s) == (ne -- se)", "reflect(nw, sw -- (1, 1)) == (4, 0)",
		"rotate((1, 0), 90deg) == (0, 1)", "rotate(e, 90deg, c) == (4, 6)", "rotate(w -- e, 180deg, c) == (e -- w)", "rotate(south, 90deg) == ((0, 0) -- (0, 8))",
		"sqrt(9/4) == 3/2", "abs(sqrt(2) - 1.41421356) < 0.00000001",
	)
}

// Between a helper's examples all of the table is exercised.
func TestTableIsSortedAndComplete(t *testing.T) {
	// The names that the language promises.
	names := strings.Fields("abs between ceil cos direction distance even floor foot inset max meet mid min mod odd parallel pick polar reflect rotate sin sqrt tan")
	var have []string
	for _, s := range Signatures() {
		have = append(have, s.Name)
		if s.Does == "" || len(s.Forms) == 0 {
			t.Errorf("%s is not described", s.Name)
		}
		if helperNamed(s.Name) == nil {
			t.Errorf("%s cannot be found", s.Name)
		}
	}
	if !slices.Equal(have, names) {
		t.Errorf("helpers are %v", have)
	}
	for i := range helperTable {
		for _, f := range helperTable[i].forms {
			if len(strings.Fields(f.takes)) != len(f.kinds) {
				t.Errorf("%s: %q names %d arguments, not %d", helperTable[i].name, f.takes, len(strings.Fields(f.takes)), len(f.kinds))
			}
		}
	}
	if got := helperNamed("rotate").forms[1].signature("rotate"); got != "rotate(p: point, a: angle, q: point)" {
		t.Errorf("signature: %s", got)
	}
}

func TestHelpersWithoutAnswer(t *testing.T) {
	for _, c := range []string{
		"meet(north, south) == c", "meet(n -- n, w -- e) == c", "sqrt(-1) == 1", "tan(90deg) == 1", "mod(1, 0) == 1", "pick(0, 1, 2) == 1", "pick(3, 1, 2) == 1",
		"pick(1.5, 1, 2) == 1", "even(1.5)", "odd(0.5)", "direction(c, c) == 0deg", "foot(n, c -- c) == c", "inset(w -- e, 1) == (w -- e)", "distance(n, c -- c) == 1",
		"reflect(n, c -- c) == c", "reflect(w -- e, c -- c) == (w -- e)",
	} {
		want(t, sky+"block b 8 x 4 finished 4in {\n  check "+c+" \"no\"\n  section A { 1 sky at c }\n}\n", nil, "L241 3")
	}
}

func TestHelpersTakeTheirKinds(t *testing.T) {
	for c, code := range map[string]string{
		"mid(n) == c": "L221 3 `mid` cannot take a point", "mid() == c": "L236 3 does not take 0", "sqrt(1, 2) == 1": "L236 3 does not take 2",
		"sqrt(1in) == 1": "L221 3 `sqrt` takes a number", "sin(30) == 1": "L221 3 `sin` takes an angle", "max(1, 2in) == 1": "L221 3",
		"pick(1, n, 2) == n": "L226 3", "pick(sky, n) == n": "L221 3", "mid(p: n, q: s) == c": "L236 3 no names", "meet(n, s) == c": "L221 3 `meet` takes a line",
		"reach(n) == c": "L203 3 no helper called `reach`", "mdi(n, s) == c": "L203 3", "b(n) == c": "L203 3",
	} {
		want(t, sky+"block b 8 x 4 finished 4in {\n  check "+c+" \"no\"\n  section A { 1 sky at c }\n}\n", nil, code)
	}
}

func drawPoint(t *rapid.T, name string) plane.Point {
	in := rapid.Float64Range(-50, 50)
	return plane.Point{X: in.Draw(t, name+".x"), Y: in.Draw(t, name+".y")}
}

// Reflecting keeps distances, undoes itself, and leaves the foot where it is;
// turning keeps distances from the point turned about.
func TestReflectRotateFoot(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, a, b := drawPoint(t, "p"), drawPoint(t, "a"), drawPoint(t, "b")
		if a.Dist(b) < 0.01 {
			return
		}
		l := lineValue(a, b)
		near := func(what string, got, want plane.Point) {
			if got.Dist(want) > 1e-7 {
				t.Fatalf("%s: %v, want %v", what, got, want)
			}
		}
		do := func(f func(*run, []value.Value) (value.Value, string), vs ...value.Value) value.Value {
			v, fault := f(nil, vs)
			if fault != "" {
				t.Fatal(fault)
			}
			return v
		}
		q := start(do(reflectPoint, pointValue(p), l))
		near("twice reflected", start(do(reflectPoint, pointValue(q), l)), p)
		f := start(do(foot, pointValue(p), l))
		near("the foot is halfway to the reflected point", f, p.Mid(q))
		d := do(distanceToLine, pointValue(p), l).Num.Float64()
		if math.Abs(d-p.Dist(f)) > 1e-7 {
			t.Fatalf("distance %v, foot at %v", d, p.Dist(f))
		}
		turn := value.Angle(value.Float(rapid.Float64Range(-720, 720).Draw(t, "turn")))
		r := start(do(rotatePoint, pointValue(p), turn, pointValue(a)))
		if math.Abs(r.Dist(a)-p.Dist(a)) > 1e-7 {
			t.Fatalf("turning moved %v away from %v", p, a)
		}
		back := value.Angle(turn.Num.Neg())
		near("turned there and back", start(do(rotatePoint, pointValue(r), back, pointValue(a))), p)
	})
}

// Where two lines meet, both feet are.
func TestMeetLiesOnBoth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c, d := drawPoint(t, "a"), drawPoint(t, "b"), drawPoint(t, "c"), drawPoint(t, "d")
		if a.Dist(b) < 0.1 || c.Dist(d) < 0.1 || math.Abs(b.Sub(a).Cross(d.Sub(c))) < 0.1*a.Dist(b)*c.Dist(d) {
			return // nearly parallel: the point is badly determined
		}
		l, m := lineValue(a, b), lineValue(c, d)
		v, fault := meet(nil, []value.Value{l, m})
		if fault != "" {
			t.Fatal(fault)
		}
		for _, line := range []value.Value{l, m} {
			if f, _ := footOn(line, start(v)); f.Dist(start(v)) > 1e-7 {
				t.Fatalf("%v is not on %v", start(v), line)
			}
		}
	})
}
