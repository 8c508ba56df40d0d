// Package model holds the plain values that everything else works on: money, facts, parts, bikes, the shed of one
// rider, and the rows of every table. It reads nothing, works nothing out, and imports nothing of ours.
package model
