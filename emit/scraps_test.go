package emit_test

import (
	"testing"
)

// Which spaces will these scraps serve, and for how many blocks? Worked out by hand. A
// space of the windmill takes half a square of 4 3/4 in.
func TestScrapsOfAWindmill(t *testing.T) {
	const text = `pattern "Scraps" {
  scrap 5in x 7in of sky, 10in x 5in of sky, 4in x 4in, 10in x 10in of hull, 16in x 5in of hull, 3in x 18in, 2in x 2in of sky
}
fabric hull "hull" dark #303030
fabric sky "sky" light #f0f0f0 scrappy by piece
unit quarter 2 x 2 {
  section {
    1 hull at (1.5, 0.5)
    2 sky along sw -- ne
  }
}
block windmill 4 x 4 finished 6in {
  for i in 0..3 { place quarter at c turn 90deg * i }
  join w -- c, c -- e
  join n -- s
}
`
	p, _ := compiled(t, text)
	says(t, "windmill", cuttingTable(t, p),
		"- 5 in x 7 in of sky gives (1) of 4 3/4 in, for 2 of 4: A2 (4).\n",
		"- 10 in x 5 in of sky gives (2) of 4 3/4 in, for all 4: A2 (4).\n",
		"- 4 in x 4 in serves no space",
		"- 16 in x 5 in of hull gives (2) of 4 3/4 in, for all 4: A1 (4).\n",
		"- 3 in x 18 in serves no space",
		"- 2 in x 2 in of sky serves no space",
		"- All of hull for (3) blocks comes from these scraps.\n", // seven squares, of which three blocks take six
		"- All of sky for one block comes from these scraps.\n",   // three squares, of which two blocks take four
		"- All spaces of a block come from these scraps together",
	)
}
