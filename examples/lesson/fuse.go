package main

import (
	"fmt"

	"example.org/extralow/protect"
	"example.org/extralow/tables"
	"github.com/shopspring/decimal"
)

// windowOf is the window of a family by the European set.
func windowOf(family string, n protect.Need) (protect.Window, error) {
	set, err := tables.RuleSetOf("european")
	if err != nil {
		return protect.Window{}, err
	}
	return n.Window(set.Device, family)
}

// fuseForLoad is got wrong by whoever loads the fuse fully. The load is above
// 0.8 of one standard rating, and at most 0.8 of the next.
func fuseForLoad(r dice) (question, error) {
	const family = "ISO 8820-3 C"
	step := [][2]int64{{81, 100}, {121, 150}, {161, 200}, {201, 240}}[r.IntN(4)]
	need := protect.Need{DesignA: r.between(step[0], step[1], 1), AmpacityA: r.between(320, 400, 1)}
	right, err := windowOf(family, need)
	if err != nil {
		return question{}, err
	}
	short := need
	short.Brief = true
	wrong, err := windowOf(family, short)
	if err != nil {
		return question{}, err
	}
	loaded := need.DesignA.Shift(2).DivRound(wrong.BestA.Decimal, 0)
	return question{
		subject: "fuse",
		asks: fmt.Sprintf("A fridge and its fan take %s A for hours through a cable that may carry %s A as installed. Which is the smallest blade fuse (%s) for it by the European rule set, loaded as practice does?",
			need.DesignA, need.AmpacityA, family),
		name: "rating", unit: "A", answer: right.BestA.Decimal, lines: right.Working,
		mistake: "a fuse is thought to carry its rating without end",
		wrong:   wrong.BestA.Decimal,
		harm:    fmt.Sprintf("Loaded with %s %% of its rating the fuse runs hot, ages, and may open one warm day with nothing wrong. Somebody then fits a larger one.", loaded),
	}, nil
}

// fuseForCable is got wrong by whoever compares ratings alone. The ampacity is
// at or above a standard rating, but less than 1.6 ÷ 1.45 of it.
func fuseForCable(r dice) (question, error) {
	const family = "IEC 60269 gG"
	step := [][2]int64{{400, 440}, {500, 550}, {630, 690}, {800, 880}, {1000, 1100}}[r.IntN(5)]
	need := protect.Need{DesignA: r.between(12, 20, 0), AmpacityA: r.between(step[0], step[1], 1), Brief: true}
	right, err := windowOf(family, need)
	if err != nil {
		return question{}, err
	}
	largest := right.InsideA[len(right.InsideA)-1]
	wrong, err := largestUpTo(family, need.AmpacityA)
	if err != nil {
		return question{}, err
	}
	opens := right.Checks(wrong)[2]
	return question{
		subject: "fuse",
		asks: fmt.Sprintf("A cable may carry %s A as installed; its load is %s A. Which is the largest gG link (%s) that protects it by the European rule set?",
			need.AmpacityA, need.DesignA, family),
		name: "rating", unit: "A", answer: largest, lines: leading(right.Working, "I_hi"),
		mistake: "the rating is compared with the ampacity, and the current that opens the link is not",
		wrong:   wrong,
		harm:    fmt.Sprintf("That link need not open below %s A for an hour or more. The cable may be overloaded to %s A so long, and no further.", show(opens.Demand), show(opens.Limit)),
	}, nil
}

// largestUpTo is the largest standard rating that is no more than the ampacity.
func largestUpTo(family string, ampacityA decimal.Decimal) (decimal.Decimal, error) {
	ratings, err := tables.Ratings(family)
	if err != nil {
		return decimal.Decimal{}, err
	}
	largest := ratings[0].Value
	for _, f := range ratings {
		if f.Value.LessThanOrEqual(ampacityA) {
			largest = f.Value
		}
	}
	return largest, nil
}
