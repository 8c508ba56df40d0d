// Package cost says what one change in one slot costs, in whole minor units: the part with tax, the jobs it brings, the
// tools and small parts of each job, and who may do it.
//
// Input are the tables, the shed and a thing with what stood there before; output is a Bill. What several bills share is
// left to whoever adds them up, because only the whole plan can tell:
//
//   - a tool is bought once;
//   - jobs with the same Place and Shared name are done once, and the largest minutes and shop price count;
//   - a job that several slots of one plan bring is done once, its small parts with it;
//   - a shop's shipping is paid once, judged by the listed prices.
//
// Tax on top is rounded half up for each unit, as a shop does it line by line; it is charged on parts alone: the prices
// of tools, small parts and work are what is paid. The rider's own work costs nothing.
package cost
