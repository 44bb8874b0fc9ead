"""The one-page sheet that goes to the site: drawings to scale and all that is built from them."""
