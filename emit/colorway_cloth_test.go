package emit_test

import "testing"

// Every colorway has its cloth list: with two fabrics in one cloth the patches of both are
// cut from it, and strips and sum are told; of a cloth that only takes another's place the
// amount is that of the other.
func TestClothOfColorways(t *testing.T) {
	p, _ := compiled(t, `fabric hull "hull" dark #303030
fabric sky "sky" light #f0f0f0
fabric sail "sail" light #d0d0d0
block three 4 x 6 finished 4in {
  section {
    1 hull at (2, 0.5)
    2 sky  along (0, 1) -- (4, 1)
    3 sail along (0, 2) -- (4, 2)
    4 hull along (0, 3) -- (4, 3)
    5 sky  along (0, 4) -- (4, 4)
    6 sail along (0, 5) -- (4, 5)
  }
}
colorway storm "Storm" {
  sail "storm sail" medium #b5533c
}
colorway calm "Calm" {
  sky as sail
}
`)
	says(t, "three", cuttingTable(t, p),
		"## Cloth to buy: Storm\n\n- **hull** (dark): a scrap of at least 5 in x 7 in\n- **sky** (light): a scrap of at least 5 in x 7 in\n- **storm sail** (medium): a scrap of at least 5 in x 7 in\n",
		"## Cloth to buy: Calm\n\n- **hull** (dark): a scrap of at least 5 in x 7 in\n- **sail** (light): 1/8 yd\n  - (1) strip of 2 in, for (4) of 5 in x 2 in\n  - Sum: 2 in of strips + 1 in to straighten = 3 in; 1/8 yd is 4 1/2 in\n",
	)
}
