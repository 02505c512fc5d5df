// Package workingtest holds the library to its printed working. It is for
// tests only: the drift guard evaluates every formula of a working again from
// its symbols, and the handbook reader runs published examples.
package workingtest

import (
	"fmt"
	"math"
	"math/big"
	"regexp"
	"slices"
	"strings"
)

// number is an exact rational as long as the formula stays rational, and a
// float64 from the first root, power or trigonometric function on.
type number struct {
	exact *big.Rat // nil where only approx is known
	real  float64
}

func rational(r *big.Rat) number {
	f, _ := r.Float64()
	return number{exact: r, real: f}
}

// lexeme is a number, a symbol or function, or a sign.
var lexeme = regexp.MustCompile(`[\p{L}\p{N}_.]+|≤|≥|\S`)

var functions = map[string]func(args []float64) float64{
	"sqrt": func(a []float64) float64 { return math.Sqrt(a[0]) },
	"ln":   func(a []float64) float64 { return math.Log(a[0]) },
	"log":  func(a []float64) float64 { return math.Log10(a[0]) },
	"exp":  func(a []float64) float64 { return math.Exp(a[0]) },
	"sin":  func(a []float64) float64 { return math.Sin(a[0]) },
	"cos":  func(a []float64) float64 { return math.Cos(a[0]) },
	"tan":  func(a []float64) float64 { return math.Tan(a[0]) },
	"asin": func(a []float64) float64 { return math.Asin(a[0]) },
	"acos": func(a []float64) float64 { return math.Acos(a[0]) },
	"pi":   func([]float64) float64 { return math.Pi },
}

// formula evaluates as it reads:
//
//	comparison = sum { ("≤" | "<" | "≥" | ">" | "=") sum }
//	sum        = product { ("+" | "-" | "−") product }
//	product    = power { ("×" | "÷" | "/") power }
//	power      = ["-"] atom [ "^" power ]
//	atom       = number | symbol | function [ "(" sum { "," sum } ")" ] | "(" sum ")"
type formula struct {
	rest    []string
	symbols map[string]*big.Rat
}

type syntaxError string

// evaluate returns the value of a formula, and whether every comparison in it
// holds.
func evaluate(text string, symbols map[string]*big.Rat) (v number, holds bool, err error) {
	p := &formula{lexeme.FindAllString(text, -1), symbols}
	defer func() {
		if r := recover(); r != nil {
			fault, ok := r.(syntaxError)
			if !ok {
				panic(r)
			}
			err = fmt.Errorf("formula %q: %s", text, string(fault))
		}
	}()
	v, holds = p.comparison()
	if len(p.rest) > 0 {
		panic(syntaxError("does not read past " + strings.Join(p.rest, " ")))
	}
	return v, holds, nil
}

func (p *formula) next() string {
	if len(p.rest) == 0 {
		panic(syntaxError("ends too soon"))
	}
	t := p.rest[0]
	p.rest = p.rest[1:]
	return t
}

// accept takes the next lexeme if it is one of those.
func (p *formula) accept(any ...string) (string, bool) {
	if len(p.rest) > 0 && slices.Contains(any, p.rest[0]) {
		return p.next(), true
	}
	return "", false
}

func (p *formula) comparison() (number, bool) {
	v, holds := p.sum(), true
	for {
		sign, ok := p.accept("≤", "<", "≥", ">", "=")
		if !ok {
			return v, holds
		}
		right := p.sum()
		holds = holds && compare(v, sign, right)
		v = right
	}
}

func compare(a number, sign string, b number) bool {
	var c int
	if a.exact != nil && b.exact != nil {
		c = a.exact.Cmp(b.exact)
	} else if slack := 1e-9 * math.Max(math.Abs(a.real), math.Abs(b.real)); math.Abs(a.real-b.real) > slack {
		c = map[bool]int{true: -1, false: 1}[a.real < b.real]
	}
	return map[string]bool{"≤": c <= 0, "<": c < 0, "≥": c >= 0, ">": c > 0, "=": c == 0}[sign]
}

func (p *formula) sum() number {
	v := p.product()
	for {
		sign, ok := p.accept("+", "-", "−")
		if !ok {
			return v
		}
		v = combine(v, sign, p.product())
	}
}

func (p *formula) product() number {
	v := p.power()
	for {
		sign, ok := p.accept("×", "÷", "/")
		if !ok {
			return v
		}
		v = combine(v, sign, p.power())
	}
}

func combine(a number, sign string, b number) number {
	if (sign == "÷" || sign == "/") && b.real == 0 {
		panic(syntaxError("divides by nought"))
	}
	if a.exact == nil || b.exact == nil {
		return number{real: map[string]float64{
			"+": a.real + b.real, "-": a.real - b.real, "−": a.real - b.real,
			"×": a.real * b.real, "÷": a.real / b.real, "/": a.real / b.real,
		}[sign]}
	}
	r := new(big.Rat)
	switch sign {
	case "+":
		r.Add(a.exact, b.exact)
	case "-", "−":
		r.Sub(a.exact, b.exact)
	case "×":
		r.Mul(a.exact, b.exact)
	default:
		r.Quo(a.exact, b.exact)
	}
	return rational(r)
}

func (p *formula) power() number {
	if _, ok := p.accept("-", "−"); ok {
		return combine(rational(new(big.Rat)), "-", p.power())
	}
	base := p.atom()
	if _, ok := p.accept("^"); ok {
		return number{real: math.Pow(base.real, p.power().real)}
	}
	return base
}

func (p *formula) atom() number {
	t := p.next()
	if t == "(" {
		v := p.sum()
		p.close()
		return v
	}
	if r, ok := p.symbols[t]; ok {
		return rational(r)
	}
	if r, ok := new(big.Rat).SetString(t); ok {
		return rational(r)
	}
	return p.call(t)
}

func (p *formula) close() {
	if t := p.next(); t != ")" {
		panic(syntaxError("wants a bracket, has " + t))
	}
}

func (p *formula) call(name string) number {
	var args []number
	if _, ok := p.accept("("); ok {
		args = append(args, p.sum())
		for {
			if _, ok := p.accept(","); !ok {
				break
			}
			args = append(args, p.sum())
		}
		p.close()
	}
	switch f := functions[name]; {
	case name == "pi":
		return number{real: math.Pi}
	case len(args) == 0:
		panic(syntaxError("does not know " + name))
	case name == "min" || name == "max":
		return extreme(name, args)
	case name == "ceil" || name == "floor":
		return whole(name, args[0])
	case f == nil:
		panic(syntaxError("does not know " + name))
	default:
		return number{real: f([]float64{args[0].real})}
	}
}

func extreme(name string, args []number) number {
	sign := map[string]string{"min": "<", "max": ">"}[name]
	best := args[0]
	for _, a := range args[1:] {
		if compare(a, sign, best) {
			best = a
		}
	}
	return best
}

// whole rounds up or down to a whole number, exactly where the value is exact.
func whole(name string, a number) number {
	if a.exact == nil {
		round := map[string]func(float64) float64{"ceil": math.Ceil, "floor": math.Floor}[name]
		return rational(new(big.Rat).SetFloat64(round(a.real)))
	}
	down := new(big.Int).Div(a.exact.Num(), a.exact.Denom()) // Euclid: downwards, the denominator is positive
	if name == "ceil" && !a.exact.IsInt() {
		down.Add(down, big.NewInt(1))
	}
	return rational(new(big.Rat).SetInt(down))
}
