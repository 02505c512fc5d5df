package charge_test

import (
	"fmt"
)

// The workshop van with no drive, no mains and no sun, from full to 20 %.
func ExampleBalance_Autonomy() {
	v := workshopVan()
	v.StartPercent = d("100")
	a, err := v.Autonomy(some("20"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s days: %s h\n", a.Days, a.TimeH)
	// Output:
	// 2.47 days: 59.5167 h
}

// How long the van must drive home on each working day so that a fortnight from
// the first of a month ends as it began. In June the sun does it.
func ExampleBalance_LeastDriving() {
	v := workshopVan()
	v.StartPercent = d("60")
	for _, v.FirstMonth = range []int{12, 3, 6} {
		h, err := v.LeastDriving("drive home", some("20"))
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("month %d: %t, %s h of %s h; ends at %s %%\n", v.FirstMonth, h.Exists, h.TimeH.Round(2), h.GreatestH, h.Ledger.EndPercent)
	}
	v.Sources[1].CurrentA = d("2")
	v.FirstMonth = 12
	h, err := v.LeastDriving("drive home", some("20"))
	fmt.Println("with 2 A:", h.Exists, err)
	// Output:
	// month 12: true, 1.7 h of 7.5 h; ends at 61.627 %
	// month 3: true, 0.78 h of 7.5 h; ends at 62.277 %
	// month 6: true, 0 h of 7.5 h; ends at 94.261 %
	// with 2 A: false <nil>
}
