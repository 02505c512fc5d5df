package rules

import (
	"fmt"
	"slices"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
)

var ofRatings = []Rule{
	{
		ID: "P31", Title: "The device's rating is one that is made",
		Danger:  "another rating stands in its place, larger or smaller, and nothing here was judged for that",
		Why:     "each standard lists its ratings; another one is its maker's own, or nobody's",
		Sources: []string{"common practice"},
		Grade:   Dangerous, Rank: 70,
		Changes: Cables | Devices,
		Judge:   ratingMade,
	},
}

// ratingMade asks of each device whether the standard of its family lists its
// rating. Figures of a data sheet stand beside a rating and say nothing of it:
// that the article has it the job states by itself.
func ratingMade(m *facts.Facts) ([]Finding, error) {
	all, err := fitted(m, func(e facts.End) (working.Check, error) {
		listed, err := tables.Ratings(e.Fitted.Family)
		c := working.Check{ID: "P31"}
		switch {
		case err != nil: // the family itself is known
			c.Silent = "the tables list no ratings of its family"
		case slices.ContainsFunc(listed, func(f working.Figure) bool { return f.Value.Equal(e.Fitted.RatingA) }):
			c.Silent = "listed"
		case e.Fitted.OwnRating:
			c.Silent = "as stated, the article's own data sheet lists it"
		default:
			c.Missing = fmt.Sprintf("%s lists no %s A: read the rating on the device, or state own_rating where its data sheet lists that", e.Fitted.Family, e.Fitted.RatingA)
		}
		return c, nil
	})
	all = slices.DeleteFunc(all, func(f Finding) bool { return f.Silent == "listed" })
	for i := range all {
		all[i].RuleSet = "" // the standard's list, not the code's
	}
	if len(all) == 0 && err == nil {
		all = notHere("P31", "the devices", "circuits", "the standard of each lists its rating")
	}
	return all, err
}
