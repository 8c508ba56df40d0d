// Package builtin is the pure Go engine: exact, in whole numbers, for every program that solver/program can state.
//
// # Method
//
// Lift and narrow. A bent curve that few options move becomes a slot of its own (lift). Relations drop options without
// partners (arc consistency); an option goes when another of its slot is as good in all respects and earlier in ties.
//
// Lines. For any prices >= 0 a line bounds a whole space of choices from above: the budget, the floor and the rows get
// a price (Lagrangian relaxation), every curve is replaced by one supporting line plus the most that the curve rises
// above it, every fee (charge or shipping) by shares of it on the slots that use it, at most 1 in all. What is left is a
// sum over slots under the relations, and bucket elimination over their graph finds its greatest value; a bucket that
// would be too large is split (mini-buckets), which only weakens the bound. Good prices come from subgradient steps.
//
// Drop. The same tables, run outwards, bound every choice with a given option. Options that cannot meet the goal go.
//
// Tree. Depth first along an order with few promising options first; the tables bound all completions of a path. At each
// node the bound is corrected by what is known there: the fees really paid, shipping whose threshold is out of reach or
// passed, and the range each amount can still have. Wide trees are split by the options of one slot, with new prices.
//
// Ties. With the best value, cash and benefit proved, fewest purchases and first options are found by witness: only
// options earlier than the witness's are tried, under the same lines.
//
// Frontier. The same lines for two dozen budgets and a tree for each few regions of cash; a path is left when for every
// region some line cannot rise above the best benefit known for that cash.
//
// # Why it is exact
//
//  1. A line is valid whatever its prices: curve(r) <= max(curve - slope*r) + slope*r over the range; a fee that is paid
//     costs at least the claimed shares; shipping is at least shares*(open - listed/threshold), below the threshold,
//     at it and beyond; priced rows, budget and floor only add what is >= 0 on choices that meet them. Shares, profits,
//     tables and bounds are int64: prices are rounded once, before use, and sums that could leave 64 bits are refused.
//  2. A line needs at least goal.need (stairs.need for a frontier) on every choice that would be better than the best
//     known. A path or option goes only when some line promises less. The best known only rises, so cuts stay right.
//  3. Corrections subtract a minimum over everything still reachable of (true - claimed), which is >= 0.
//  4. Every assignment not cut is visited, and a leaf is reckoned from the program itself and checked by
//     Program.Feasible. So at the end nothing better exists. Prices, orders, table sizes and limits decide speed only.
//
// # Sources
//
// M. L. Fisher, "The Lagrangian relaxation method for solving integer programming problems", Management Science 27
// (1981); B. T. Polyak, "Minimization of unsmooth functionals", USSR Comput. Math. Math. Phys. 9 (1969), for the step
// length; R. Dechter, "Bucket elimination", Artificial Intelligence 113 (1999); R. Dechter and I. Rish, "Mini-buckets",
// J. ACM 50 (2003); R. M. Haralick and G. L. Elliott, "Increasing tree search efficiency for constraint satisfaction
// problems", Artificial Intelligence 14 (1980), for fail first. All from memory; the method was put together here.
package builtin
