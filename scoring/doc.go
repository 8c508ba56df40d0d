// Package scoring says what a thing is worth to one rider, in whole numbers.
//
// A criterion ("braking") has measures ("braking.front"). Every thing in a slot adds an amount to a measure
// (measures.csv: facts to amounts); the bike's sum is bent by the measure's concave curve (curves.csv: amount to level
// 0..100), so that the second improvement in one place brings less; the levels are weighed by what the rider cares
// about (Weigh). With whole numbers:
//
//	steps   = round(amount / Scale.Step)                      of what no thing carries, of every pair, and of every
//	                                                          thing, counted from what is fitted (Scorer.Amounts)
//	level   = Scale.Level(sum of the steps)                   0 to 10,000 over the curve
//	benefit = sum over the measures of percent * level        1,000,000 = 100 points
//
// Input are the tables, the shed and one bike; output are weights, scales and amounts, each with a trace from the cell
// to the number. What goes together, what it costs and what is best is not asked here.
//
// Method: additive value over measures with concave single-measure values (Goodwin and Wright, Decision Analysis for
// Management Judgment, chapter 3); weights from a ranking by the rank-order centroid (Barron and Barrett 1996);
// chances of failure multiply, so their logarithms add.
package scoring
