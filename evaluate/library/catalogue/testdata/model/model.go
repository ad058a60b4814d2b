// Package model stands in for the library's.
package model

type Level uint8

const (
	Advice Level = iota
	Warning
	Danger
)

type Caution struct {
	ID                         string
	Level                      Level
	Standing                   bool
	Summary, Why, Hint, Source string
}

// Cautions stands for the list that a result embeds.
type Cautions struct{ List []Caution }
