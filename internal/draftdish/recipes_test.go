package draftdish

// Home recipes, all of them invented for these tests: with headings and without, in sentences and in steps, with what home recipes leave open.
var recipes = map[string]string{
	"potato leek": `Potato and leek soup

Serves 6

Ingredients
3 tablespoons butter
3 large leeks, white part only, sliced
2 cloves garlic, minced
1 1/2 lb potatoes, peeled and cubed
4 cups vegetable broth
1 cup heavy cream
1 bay leaf
salt to taste
a pinch of nutmeg
2 tbsp chopped parsley

Method
1. Melt the butter in a large pot over medium heat. Add the leeks and garlic and sweat for 8 to 10 minutes, until soft.
2. Add the potatoes, broth and bay leaf. Bring to a boil, then simmer uncovered for 25 minutes.
3. Take out the bay leaf. Puree in a blender until smooth.
4. Return to the pot, stir in the cream and nutmeg and heat gently for 5 minutes. Season with salt.
5. Serve with the parsley.
`,
	"chili": `Ingredients:
1 lb ground turkey
1 large onion, chopped
2 carrots, diced
1 (28 oz) can crushed tomatoes
1 can white beans, drained
2 tbsp tomato paste
1 tablespoon cumin
1 tsp smoked paprika
1/4 tsp cayenne
2 cups water
1 1/2 tsp salt
1 tbsp canola oil

Directions:
Brown the turkey in the oil in a skillet for 8 minutes, in batches; set aside.
In a large pot, cook the onion and carrots until soft, about 10 minutes.
Add the spices and tomato paste and stir for 1 minute.
Add the tomatoes, beans, water, salt and the turkey and simmer for 45 minutes, stirring every 10 minutes.
`,
	"cheese sauce": `Cheddar sauce for greens
makes 3 cups

4 tbsp butter
1/4 cup all-purpose flour
2 cups whole milk
2 cups shredded sharp cheddar
1/2 tsp mustard powder
1 tsp cornstarch
1 dash Worcestershire sauce
salt and pepper to taste

Melt the butter in a saucepan and whisk in the flour; cook for 2 minutes without browning.
Slowly whisk in the milk and simmer for 5 minutes until thick.
Meanwhile, in a small bowl, stir the cornstarch into a little of the milk.
Add the slurry and boil for 1 minute.
Take it off the heat and stir in the cheddar, mustard powder and Worcestershire.
`,
	"meatballs": `Baked meatballs
For the meatballs:
2 pounds ground turkey
1 cup bread crumbs
1/2 cup milk
2 eggs
1 tsp fennel seed
2 tsp salt
For the sauce:
1 quart crushed tomatoes
1 sprig oregano
some olive oil

Preheat the oven to 400°F.
Mix the turkey, bread crumbs, milk, eggs, fennel seed and salt in a bowl.
Shape into balls and bake for 20 minutes until 165 degrees inside.
In a separate saucepan, simmer the tomatoes with the oregano for half an hour.
Add the meatballs to the sauce and heat through for 10 min.
`,
	"gum by the cup": `Thick cream soup

2 cups milk
1 cup heavy cream
1 lb carrots, chopped
xanthan gum, 1 g per cup
1 tsp salt

Simmer the carrots in the milk for 20 minutes, covered.
Blend with the xanthan until smooth.
Stir in the cream and salt and heat to 180 F.
`,
	"metric": `Lentil pot
Makes 2 litres

Ingredients
250 g red lentils
1 onion, finely chopped
2 tbsp olive oil
1.2 l vegetable broth
400 ml coconut milk
1 tsp turmeric
2 tsp salt

Method
Step 1: Sauté the onion in the oil for 8 min.
Step 2: Stir in the turmeric. Add lentils and broth; cover and simmer for 25-30 min.
Step 3: Stir in the coconut milk and salt and simmer uncovered for another 10 minutes.
`,
	"odd": `Grandmother's stew

1 chicken
some carrots
1,5 l stock
1 jar of peppers
2-3 potatoes
a handful of noodles
1 T. soy sauce
xanthan gum, 1 g per cup

Put it all in the pot and let it bubble till it smells right.
`,
}
