// Package foodtable is the open food composition table that comes with kettlefrost: 607 foods of a kitchen that cooks soups, stews,
// sauces and fillings, with their composition, household measures, cooking yields and densities. It answers "what is in it",
// "what does a cup of it weigh" and "what is left of it after cooking"; a book's own figures always go before these.
//
// The figures are those of the US Department of Agriculture, a work of the US government and in the public domain. Suggested
// citation: US Department of Agriculture, Agricultural Research Service, Nutrient Data Laboratory. USDA National Nutrient
// Database for Standard Reference, Release 28. The files and their columns are described in data/README.md. The names a cook
// would say (Food.Name) are kettlefrost's own; the official description stands beside each.
//
// What to know before use:
//   - Everything is per 100 g of the edible part. Carbohydrate is by difference and includes fibre.
//   - A figure that the source does not give is not zero. It is a Value that is not given, and a caller must say what then.
//   - Some staples are fortified ("enriched", "with added vitamin D"), as sold in the United States.
package foodtable
