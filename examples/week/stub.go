package main

import "io"

type chart struct{}

func (a answer) chart() chart           { return chart{} }
func (c chart) draw(out io.Writer) error { return nil }
