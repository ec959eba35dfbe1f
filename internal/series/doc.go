// Package series holds exact solutions of heat conduction in bodies that do not change phase, as series: Sheet for a wide flat body with
// two different faces, Body for slabs, cylinders, spheres and their products, RelativeTemp and FirstTermOf for what textbooks tabulate.
//
// Bodies conduct only: a food that can be poured also mixes by itself and cools faster than a Sheet or a Body says. Units, ranges and
// errors are as in package heat.
package series
