* two tyres and a tube
* minimise minus the objective; its constant 60 is left out
NAME firstbolt FREE
ROWS
 N objective
 E one.front_tyre
 E one.rear_tyre
 E one.tube
 L rel.tube_fits
 L rel.tube_fits.2
 L row.not_all_three
 L charge.tyre_lever.front_tyre
 L charge.tyre_lever.rear_tyre
 L open.corner.front_tyre
 L open.corner.rear_tyre
 L open.corner.tube
 L free.corner.2
 L ship.corner.2
 L curve.grip.1
 L curve.grip.2
 L budget
 L floor
COLUMNS
 MARKER 'MARKER' 'INTORG'
 y.front_tyre.fitted one.front_tyre 1
 y.front_tyre.fitted rel.tube_fits.2 -1
 y.front_tyre.Gr__e_26__knobbly one.front_tyre 1
 y.front_tyre.Gr__e_26__knobbly rel.tube_fits 1
 y.front_tyre.Gr__e_26__knobbly row.not_all_three 1
 y.front_tyre.Gr__e_26__knobbly charge.tyre_lever.front_tyre 1
 y.front_tyre.Gr__e_26__knobbly open.corner.front_tyre 1
 y.front_tyre.Gr__e_26__knobbly free.corner.2 -10
 y.front_tyre.Gr__e_26__knobbly curve.grip.1 -30
 y.front_tyre.Gr__e_26__knobbly curve.grip.2 -15
 y.front_tyre.Gr__e_26__knobbly budget 10
 y.rear_tyre.fitted one.rear_tyre 1
 y.rear_tyre.a_slick_whose_name_is_lo one.rear_tyre 1
 y.rear_tyre.a_slick_whose_name_is_lo row.not_all_three 1
 y.rear_tyre.a_slick_whose_name_is_lo charge.tyre_lever.rear_tyre 1
 y.rear_tyre.a_slick_whose_name_is_lo open.corner.rear_tyre 1
 y.rear_tyre.a_slick_whose_name_is_lo free.corner.2 -7
 y.rear_tyre.a_slick_whose_name_is_lo curve.grip.1 -20
 y.rear_tyre.a_slick_whose_name_is_lo curve.grip.2 -10
 y.rear_tyre.a_slick_whose_name_is_lo budget 7
 y.tube.fitted one.tube 1
 y.tube.fitted rel.tube_fits -1
 y.tube.light one.tube 1
 y.tube.light rel.tube_fits.2 1
 y.tube.light row.not_all_three 1
 y.tube.light open.corner.tube 1
 y.tube.light free.corner.2 -3
 y.tube.light budget 3
 charge.tyre_lever charge.tyre_lever.front_tyre -1
 charge.tyre_lever charge.tyre_lever.rear_tyre -1
 charge.tyre_lever budget 3
 open.corner open.corner.front_tyre -1
 open.corner open.corner.rear_tyre -1
 open.corner open.corner.tube -1
 open.corner ship.corner.2 1
 free.corner free.corner.2 17
 free.corner ship.corner.2 -1
 ship.corner ship.corner.2 -1
 ship.corner budget 5
 MARKER 'MARKER' 'INTEND'
 value.grip objective -6
 value.grip curve.grip.1 1
 value.grip curve.grip.2 1
 value.grip floor -1
RHS
 RHS one.front_tyre 1
 RHS one.rear_tyre 1
 RHS one.tube 1
 RHS row.not_all_three 2
 RHS curve.grip.2 15
 RHS budget 20
 RHS floor -5
BOUNDS
 UP BND y.front_tyre.fitted 1
 UP BND y.front_tyre.Gr__e_26__knobbly 1
 UP BND y.rear_tyre.fitted 1
 UP BND y.rear_tyre.a_slick_whose_name_is_lo 1
 UP BND y.tube.fitted 1
 UP BND y.tube.light 1
 UP BND charge.tyre_lever 1
 UP BND open.corner 1
 UP BND free.corner 1
 UP BND ship.corner 1
 UP BND value.grip 40
ENDATA
