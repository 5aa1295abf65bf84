// What foods are called: English first, then Spanish, French, German, Italian, Polish, Portuguese, Dutch and others.
// Ordinary vocabulary, no source. Written without marks or with them; both are read.
//   word_word  several words, in this order or glued     stem*  any ending     ?word  may mean it: asked, never refused

export type FoodGroup =
  | 'fruit'
  | 'vegetable'
  | 'meat'
  | 'seafood'
  | 'dairy'
  | 'starch'
  | 'fat'
  | 'other'
  | 'form'
  | 'quality';

/** One food, form or quality a name can say, and the words for it. */
export interface FoodWord {
  /** "white peach": as a question says it. */
  readonly food: string;
  readonly group: FoodGroup;
  readonly words: string;
}

const of =
  (group: FoodGroup) =>
  ([food, words]: readonly [string, string]): FoodWord => ({ food, group, words });

const fruits = [
  [
    'apple',
    'apple manzana* pomme pommes apfel* mela mele jablk* jabłk* maçã* macas appel* äpple* æble* eple яблок* яблоч* りんご 苹果',
  ],
  ['crab apple', 'crab_apple crabapple zierapfel*'],
  ['applesauce', 'applesauce apple_sauce'],
  [
    'apricot',
    'apricot albaricoque* abricot* aprikose* marille* albicocc* morela morele moreli damasco abrikoos abrikoz* абрикос*',
  ],
  [
    'peach',
    'peach melocoton* melocotón* durazno* pêche pêches pfirsich* pesca pesche brzoskwini* pêssego* perzik* persika* fersken* персик* őszibarack もも 桃',
  ],
  ['nectarine', 'nectarine nectarina* nektarin* pesca_noce brugnon*'],
  ['pear', 'pear pera peras poire* birne* pere gruszk* peer peren päron pære груш*'],
  ['Asian pear', 'asian_pear nashi nashi_pear sand_pear korean_pear pera_asiatica poire_asiatique'],
  [
    'plum',
    'plum damson greengage mirabelle* ciruela* prune quetsche zwetschge* zwetschke* pflaume* prugn* susin* śliwk* powidl* ameixa* pruim* plommon blomme* слив*',
  ],
  [
    'cherry',
    'cherry cereza* guinda* cerise* griotte* kirsche* ciliegi* amaren* wiśni* czereśni* cereja* kers kersen körsbär kirsebær вишн* черешн*',
  ],
  [
    'berry',
    'berry berries baya* fruits_rouges beere beeren beerenobst frutti_di_bosco jagod* bagas bes bessen bär ягод*',
  ],
  [
    'strawberry',
    'strawberry fresa* frutilla* fraise* erdbeer* fragol* truskawk* morango* aardbei* jordgubb* jordbær клубник*',
  ],
  [
    'raspberry',
    'raspberry frambuesa* framboise* himbeer* lampon* malin* framboesa* framboos frambozen hallon малин*',
  ],
  [
    'blackberry',
    'blackberry boysenberry loganberry dewberry marionberry olallieberry youngberry tayberry zarzamora* moras mûre mûres brombeer* more_di_rovo jeżyn* amoras braam bramen bjornbar björnbär ежевик*',
  ],
  [
    'blueberry',
    'blueberry huckleberry bilberry arandano* arándano* myrtille* bleuet* heidelbeer* blaubeer* mirtill* borowk* borówk* mirtilo* bosbes bosbessen blåbär черник*',
  ],
  ['cranberry', 'cranberry lingonberry canneberge* preiselbeer* żurawin* cranberri* veenbes* lingon клюкв*'],
  [
    'currant',
    'currant grosella* groseille* cassis johannisbeer* ribes porzeczk* groselha* aalbes* смородин*',
  ],
  ['gooseberry', 'gooseberry stachelbeer* agrest kruisbes* uva_spina'],
  ['mulberry', 'mulberry maulbeer* gelso gelsi'],
  [
    'elderberry',
    'elderberry elder_berry elderberries sambucus sauco saúco sureau holunder* holunderbeer* ?holler fliederbeer* sambuco bez_czarny czarny_bez czarnego_bzu sabugueiro vlier vlierbes* vlierbessen fläder* hyld hyldebær hyllebær bodza seljanmarja бузин* mürver エルダーベリー 接骨木',
  ],
  [
    'elderflower',
    'elderflower elder_flower holunderblüte* fior_di_sambuco fleurs_de_sureau flor_de_sauco kwiat_bzu vlierbloesem',
  ],
  [
    'grape',
    'grape uva uvas raisin_frais raisins_frais traube* weintraube* winogron* druif druiven vindruv* виноград*',
  ],
  ['raisin', 'raisin sultana rosine* rodzynk* uvetta pasas'],
  ['date', 'medjool dates dattel* datteri daktyl* dátiles'],
  [
    'fig',
    'fig higo higos figue* feige feigen fico fichi figa figi figo figos vijg vijgen fikon инжир incir いちじく',
  ],
  ['orange', 'orange naranja* apfelsine* arancia arance arancio pomarańcz* laranja* sinaasappel* апельсин*'],
  ['mandarin', 'mandarin tangerine clementine satsuma kumquat mandarine*'],
  ['grapefruit', 'grapefruit pomelo pamplemousse* pampelmuse* pompelmo'],
  ['lemon', 'lemon limon limones citron citrons zitrone* limone limoni cytryn* limão limões citroen* лимон*'],
  ['lime', 'lime limette* limettes'],
  ['rhubarb', 'rhubarb ruibarbo rhubarbe rhabarber* rabarbaro rabarbar* rabarber ревен*'],
  ['quince', 'quince membrillo* coing coings quitte* cotogn* pigw* marmelo* kweepeer* айв*'],
  ['pineapple', 'pineapple piña abacaxi ananas* ананас*'],
  ['mango', 'mango mangoes mangue* manga mangas манго マンゴー'],
  [
    'banana',
    'banana plantain platano* plátano* banane* banan banany bananow* bananow* banaan bananen банан* muz バナナ 香蕉',
  ],
  ['papaya', 'papaya papaye* papaja mamão pawpaw lechosa'],
  [
    'melon',
    'melon cantaloupe cantaloup honeydew muskmelon watermelon melone* meloni melón sandia sandía pastèque* wassermelone* anguria cocomero arbuz* melancia* melão meloen* vannmelon арбуз* дын* メロン 西瓜',
  ],
  ['dragon fruit', 'dragonfruit dragon_fruit pitaya pitahaya drachenfrucht* fruit_du_dragon'],
  ['persimmon', 'persimmon kaki caqui хурм*'],
  ['coconut', 'coconut coco noix_de_coco kokosnuss* kokos* cocco kokosow* кокос*'],
  ['avocado', 'avocado guacamole aguacate* palta avocat avocats awokado abacate* авокадо'],
  ['pomegranate', 'pomegranate granada* grenade granatapfel* melagran* гранат'],
  ['kiwi', 'kiwi kiwifruit'],
  ['guava', 'guava guayaba* goyave*'],
  ['fruit', 'fruit fruta frutas frucht früchte obst frutta owoc* vrucht frukt фрукт*'],
] as const;

const vegetables = [
  [
    'pumpkin',
    'pumpkin calabaza* citrouille* potiron* potimarron* kürbis* zucca zucche dynia dyni dynie dynię dynio* abóbora* abobora* pompoen* pumpa pumpor græskar gresskar kurpitsa тыкв* гарбуз* dýně dyne dýňov* tök sütőtök dovleac balkabağı kabak κολοκύθα* かぼちゃ カボチャ 南瓜 호박',
  ],
  [
    'winter squash',
    'squash winter_squash butternut butternuss* butternut_squash acorn_squash hubbard kabocha buttercup_squash spaghetti_squash delicata courge* moschuskürbis* hokkaido zucca_mantovana zapallo*',
  ],
  [
    'zucchini',
    'zucchini courgette* summer_squash yellow_squash pattypan calabacin* calabacín* cukini* cukini abobrinha* zapallito* marrow кабачок кабачк*',
  ],
  [
    'tomato',
    'tomato tomate* jitomate* pomodor* pomidor* tomaat tomaten tomat томат* помидор* paradicsom* cherry_tomato grape_tomato plum_tomato pear_tomato roma_tomato トマト 番茄',
  ],
  ['green tomato', 'green_tomato tomates_vertes tomate_verde'],
  ['tomatillo', 'tomatillo'],
  [
    'bean',
    'bean beans frijol* judia* judía* alubia* haricot* bohne* fagiol* fasol* feijão feijões feijao boon bonen böna bönor фасол* ayocote garbanzo chickpea chick_pea kichererbse* lentil linse linsen lenteja* lentille* pinto kidney_bean',
  ],
  ['lima bean', 'lima_bean butter_bean limas fava broad_bean habas'],
  ['refried bean', 'refried refried_bean frijoles_refritos refritos'],
  ['hummus', 'hummus houmous humus'],
  [
    'pea',
    'pea peas guisante* arveja* petits_pois erbse* pisell* groszek grosz* ervilha* erwt erwten ärtor горох* black_eyed_pea field_pea',
  ],
  ['corn', 'corn maize sweet_corn maiz maíz elote* maïs mais kukuryd* milho кукуруз* hominy pozole'],
  [
    'carrot',
    'carrot zanahoria* carotte* karotte* möhre* mohrrübe* carota carote marchew* cenoura* wortel* morot морков*',
  ],
  [
    'beet',
    'beet beetroot remolacha* betabel betterave* rote_bete rote_beete rande randen barbabietol* burak* beterraba* biet bieten rödbet* свекл*',
  ],
  [
    'potato',
    'potato patata* papas pomme_de_terre pommes_de_terre kartoffel* erdapfel* erdäpfel ziemniak* kartofl* batata aardappel* potatis картоф*',
  ],
  ['sweet potato', 'sweet_potato yam camote* boniato* patate_douce süßkartoffel* batata_doce batat*'],
  [
    'onion',
    'onion shallot scallion leek cebolla* oignon* zwiebel* cipoll* cebula* cebul* cebola* ui uien ajuin lök лук poireau* porree puerro* pearl_onion',
  ],
  [
    'garlic',
    'garlic ajo ajos ail knoblauch* aglio czosnek czosnk* alho knoflook* vitlök* hvidløg hvitløk чеснок* česnek fokhagyma* usturoi sarımsak σκόρδο にんにく 大蒜 마늘',
  ],
  [
    'pepper',
    'pepper bell_pepper banana_pepper hungarian_banana cherry_pepper sweet_pepper hot_pepper capsicum pimento pimiento* chile chiles chili chilis chilies chilli jalapeno* jalapeño* serrano habanero* cayenne poblano poivron* piment paprika* peperone peperoni pimentão pimenta перец',
  ],
  [
    'cucumber',
    'cucumber gherkin cornichon* pepino* concombre* gurke* cetriol* ogórek ogórk* komkommer* augurk* gurka agurk* огур* pickle pickles dill_pickle',
  ],
  [
    'cabbage',
    'cabbage sauerkraut kraut kimchi coles repollo chou_vert choucroute kohl weißkohl rotkohl cavolo crauti kapust* repolho kool zuurkool капуст*',
  ],
  [
    'cauliflower',
    'cauliflower coliflor* chou_fleur blumenkohl karfiol cavolfior* kalafior* couve_flor bloemkool blomkål цветная_капуста',
  ],
  ['broccoli', 'broccoli brocoli* brócoli* brokkoli brokul* brócolis брокколи'],
  ['Brussels sprout', 'brussels_sprout rosenkohl brukselk* spruitjes'],
  [
    'eggplant',
    'eggplant egg_plant aubergine* auberginen berenjena* melanzan* bakłażan* berinjela* баклажан*',
  ],
  ['celery', 'celery celeriac apio céleri sellerie sedano seler* selderij'],
  ['asparagus', 'asparagus espárrago* esparrago* asperge* spargel* asparag* szparag* aspargo* sparris'],
  ['okra', 'okra gombo quimbombo quiabo*'],
  ['spinach', 'spinach espinaca* épinard* spinat spinaci szpinak espinafre* spinazie шпинат'],
  ['greens', 'greens chard swiss_chard kale collard collards mangold acelga* grünkohl jarmuż'],
  ['lettuce', 'lettuce lechuga* laitue* kopfsalat lattuga sałat* alface'],
  ['turnip', 'turnip rutabaga swede parsnip kohlrabi nabo nabos navet* pastinake* steckrübe* rzep*'],
  ['radish', 'radish daikon rettich radieschen rábano*'],
  ['horseradish', 'horseradish meerrettich kren raifort rábano_picante chrzan* rafano mierikswortel хрен'],
  [
    'mushroom',
    'mushroom champignon* seta setas hongo* pilz pilze pilzen fungo funghi grzyb* pieczark* cogumelo* paddenstoel* svamp гриб*',
  ],
  [
    'wild mushroom',
    'morel morels morelle morille* morchel* chanterelle* girolle* pfifferling* kurki kurka porcini porcino cepe cèpe cèpes steinpilz* boletus bolete borowik* prawdziwk* wild_mushroom mushroom_wild hen_of_the_woods chicken_of_the_woods лисичк* kantarell*',
  ],
  ['artichoke', 'artichoke alcachofa* artichaut* artischocke* carciof* karczoch* alcachofra*'],
  ['olive', 'olive olives aceituna* oliva olivas oliven oliwk* azeitona* оливк*'],
  ['jicama', 'jicama jícama'],
  ['chayote', 'chayote'],
  [
    'vegetable',
    'vegetable veggie veggies verdura* legumbre* hortaliza* légume* gemüse* verdure ortagg* warzyw* legume* groente* grönsak* овощ*',
  ],
] as const;

const animals = [
  ['meat', 'meat carne viande* fleisch* mięs* mieso vlees kött мяс* stew_meat'],
  [
    'beef',
    'beef ternera boeuf rindfleisch* manzo wołowin* rundvlees oxkött говядин* corned_beef chuck_roast',
  ],
  [
    'pork',
    'pork cerdo porc schweinefleisch* maiale wieprzowin* varkensvlees свинин* ham schinken jamon jamón jambon prosciutto szynk*',
  ],
  ['bacon', 'bacon speck tocino lardons pancetta boczek'],
  [
    'sausage',
    'sausage hot_dog salchicha* chorizo saucisse* wurst würstchen salsicci* kiełbas* linguiça колбас*',
  ],
  ['lamb', 'lamb mutton cordero agneau lammfleisch* agnello jagnięcin*'],
  ['veal', 'veal'],
  ['venison', 'venison deer elk moose venado hirschfleisch*'],
  ['bear', 'bear_meat'],
  ['liver', 'liver pate pâté leberpastete* leberwurst* foie_gras pasztet hígado fegato'],
  ['chicken', 'chicken pollo pollos poulet* hühnchen huhn hähnchen kurczak* frango* kip кури*'],
  ['turkey', 'turkey pavo dinde truthahn* tacchino indyk*'],
  ['duck', 'duck pato canard ente entenfleisch anatra kaczk*'],
  ['goose', 'goose gänse* oie'],
  ['rabbit', 'rabbit conejo lapin kaninchen* coniglio królik*'],
  ['poultry', 'poultry geflügel* volaille'],
  ['meat stock', 'stock broth bone_broth caldo bouillon brühe brodo bulion rosół'],
] as const;

const seafood = [
  [
    'fish',
    'fish salmon trout mackerel herring bluefish pescado salmón truta poisson saumon fisch lachs forelle pesce salmone ryba ryby łosoś peixe vis zalm lax рыб*',
  ],
  ['tuna', 'tuna atun atún thon thunfisch* tonno tuńczyk* tonijn'],
  ['clam', 'clam clams almeja* palourde* venusmuschel* vongole'],
  ['oyster', 'oyster ostra ostras huître* auster austern ostric* ostryg*'],
  ['mussel', 'mussel mejillón mejillones moule moules miesmuschel* cozze'],
  ['crab', 'crab cangrejo crabe krabbe krabben granchio'],
  ['shrimp', 'shrimp prawn camarón camarones gamba gambas crevette* garnele* gamberett* krewetk*'],
  ['seafood', 'seafood shellfish marisco* fruits_de_mer meeresfrüchte'],
  ['lobster', 'lobster crayfish langosta homard hummer'],
] as const;

const dairyAndEggs = [
  [
    'milk',
    'milk buttermilk condensed_milk dulce_de_leche cajeta leche lait milch vollmilch kondensmilch latte mleko mleczn* leite melk mjölk mælk maito молок* mléko tej lapte süt γάλα 牛乳 牛奶 우유',
  ],
  [
    'cream',
    'cream creme crème nata sahne rahm panna śmietan* smietan* roomsaus slagroom grädde сливк* сметан* ?ice_cream ?peaches_and_cream',
  ],
  [
    'cheese',
    'cheese queso* fromage* käse* formaggi* ser sery queijo* kaas ost сыр peynir チーズ ricotta mozzarella cheddar parmesan feta halloumi paneer ghee',
  ],
  ['fruit cheese', '?apple_cheese ?damson_cheese ?quince_cheese ?plum_cheese ?fruit_cheese ?guava_cheese'],
  ['yogurt', 'yogurt yoghurt kefir joghurt yaourt'],
  [
    'egg',
    'egg eggs eggnog mayonnaise mayo mayonesa huevo huevos oeuf oeufs œuf œufs ei eier soleier uovo uova jajko jajka jajek jaja ovo ovos eieren ägg æg muna яйц* яиц* vejce tojás ouă yumurta αυγό たまご 鸡蛋 계란',
  ],
  [
    'curd',
    'curd lemon_curd lime_curd lemon_cheese lemoncurd zitronencreme crema_de_limon crème_de_citron crema_al_limone',
  ],
  ['custard', 'custard pudding flan natillas vanillepudding* budyń'],
] as const;

const starches = [
  [
    'pasta',
    'pasta noodle spaghetti macaroni lasagna ravioli fideo* nudel nudeln pâtes makaron* massa noedels лапш* макарон*',
  ],
  ['rice', 'rice arroz riz reis riso ryż ryzu rijst ris рис risotto paella pilaf'],
  ['dumpling', 'dumpling knödel gnocchi pierogi albóndiga'],
  ['flour', 'flour harina farine mehl farina mąka mąki farinha bloem мука roux'],
  [
    'starch',
    'cornstarch corn_starch starch thickened arrowroot tapioca almidón maicena amidon stärke speisestärke amido skrobi* maïzena zetmeel крахмал',
  ],
  ['gravy', 'gravy bratensoße bratensauce roast_gravy'],
  ['bread', 'bread breads muffin brot bread_in_a_jar pan_dulce ?pain ?pane chleb* pão brood bröd хлеб'],
  [
    'cake',
    'cake cakes brownie cupcake gingerbread kuchen tarta gâteau* gateau torta torte ciasto bolo taart kaka kage пирог cake_in_a_jar kuchen_im_glas',
  ],
  ['oats', 'oatmeal porridge granola barley couscous quinoa'],
] as const;

const fatsAndOthers = [
  [
    'oil',
    'oil in_oil aceite huile huiles öl olivenöl olio sott_olio sottolio sottoli olej* oliwa oliwie oliwą óleo azeite olie olja olie_van растительное_масло sunflower_oil olive_oil zeytinyağı confit',
  ],
  [
    'butter',
    'butter butters mantequilla beurre burro manteiga masło masla maselk* boter smør smör масло vaj unt tereyağı バター 버터 黄油',
  ],
  [
    'lard',
    'lard tallow suet shortening manteca saindoux schmalz schweineschmalz strutto smalec banha reuzel сало',
  ],
  [
    'nut',
    'nut nuts almond walnut pecan hazelnut cashew pistachio nuez nueces noix nuss nüsse noci orzech* nozes noten chestnut kastanie* marron marrons marroni castaña*',
  ],
  [
    'peanut butter',
    'peanut_butter almond_butter nut_butter cashew_butter erdnussbutter beurre_de_cacahuète mantequilla_de_cacahuete burro_di_arachidi masło_orzechowe pindakaas peanut boiled_peanut cacahuete* maní erdnuss erdnüsse',
  ],
  [
    'chocolate',
    'chocolate fudge cocoa nutella schokolade* schoko chocolat chocolats cioccolat* czekolad* chocolade* choklad chokolade шоколад* kakao',
  ],
  ['caramel', 'caramel toffee butterscotch karamell*'],
  ['tofu', 'tofu tempeh seitan'],
  [
    'herb',
    'herb basil rosemary thyme oregano sage hierba* albahaca herbe herbes basilic kräuter basilikum erbe basilico zioła ziol* bazyli* ervas kruiden',
  ],
  ['mincemeat', 'mincemeat mince_meat'],
  ['honey', 'honey_infused'],
] as const;

const forms = [
  ['pesto', 'pesto'],
  [
    'puree',
    'puree pureed purée puré pureed mus mos püree pürree moes moos przecier purea baby_food babybrei brei babynahrung пюре ピューレ mousse compote compota papilla',
  ],
  [
    'mash',
    'mash mashed smashed stampf stampfkartoffel* kartoffelpüree puree_de_papa purea_di_patate majado machacad* écrasé tłuczon* puree_ziemniaczane',
  ],
  ['dry pack', 'dry_pack dry_packed packed_dry'],
  ['paste', 'paste tomato_paste concentrate pasta_de_tomate concentrado'],
  [
    'soup',
    'soup chowder bisque sopa soupe suppe suppen zuppa minestrone zupa sopas soep суп borscht borschtsch',
  ],
  ['stew', 'stew goulash gulasch* guiso eintopf casserole'],
  ['spaghetti sauce', 'spaghetti_sauce pasta_sauce marinara sugo'],
  ['salsa', 'salsa pico_de_gallo'],
  ['relish', 'relish chow_chow piccalilli'],
  ['chutney', 'chutney'],
  ['gelatin', 'gelatin gelatine gelatina żelatyn*'],
  ['pie filling', 'pie_filling'],
  ['smoked', 'smoked ahumad* fumé fumée geräuchert* räucher* affumicat* wędzon* defumad* gerookt* копчен*'],
] as const;

const qualities = [
  [
    'white',
    'white white_flesh white_fleshed blanco blanca blancos blancas blanc blanche blanches weiß weiße weißer weißen weisse bianco bianca bianche bianchi biał* branco branca brancos wit witte vit vita hvid hvide бел*',
  ],
  ['wild', 'wild silvestre* sauvage* wilde wilder selvatic* leśn* dzik*'],
  ['cream style', 'cream_style creamed_corn cream_style_corn'],
] as const;

/** Every food word, by group. */
export const foodWords: readonly FoodWord[] = [
  ...fruits.map(of('fruit')),
  ...vegetables.map(of('vegetable')),
  ...animals.map(of('meat')),
  ...seafood.map(of('seafood')),
  ...dairyAndEggs.map(of('dairy')),
  ...starches.map(of('starch')),
  ...fatsAndOthers.map(of('other')),
  ...forms.map(of('form')),
  ...qualities.map(of('quality')),
];

/** Words that hold a food's name and say another thing, or nothing that is in the jar. */
export const harmlessPhrases =
  'confiture konfiture confettura confetture konfitüre marmelade salsa_di pickled pickling preserve preserves preserved canned canning spiced sliced halved halves whole pieces favorite special batch summer winter autumn garden kitchen grandma jam jelly juice sauce syrup marmalade bread_and_butter bread_n_butter breadandbutter bread_butter rice_vinegar rice_wine white_vinegar white_wine white_sugar white_label white_lid white_lids white_jar white_jars white_box white_shelf white_cap white_ring white_pepper black_pepper peppercorn peppermint pepper_corn apple_cider apple_cider_vinegar cider_vinegar wine_vinegar milk_thistle milk_crate pancake pancakes waffle licorice price oilcloth eggshell cream_of_tartar cream_puff vanilla_bean jelly_bean coffee_bean corn_syrup corn_salad egg_cup butterfly buttercup butterball honeycrisp pickling_lime pickled_lime butterfingers buttermint snow_white stock_up in_stock peach_pit pearl corner cornflower mason_jar fig_leaf grapevine oilskin cheesecloth cheese_cloth herb_garden potluck eggnest';

/** Foods that stand for others in a recipe: the recipe of the first is a recipe of each of the rest. */
export const covers: Readonly<Record<string, readonly string[]>> = {
  berry: ['strawberry', 'raspberry', 'blackberry', 'blueberry', 'gooseberry', 'cranberry', 'currant'],
  fruit: [
    ...['apple', 'crab apple', 'apricot', 'peach', 'nectarine', 'pear', 'plum', 'cherry', 'berry', 'grape'],
    ...['strawberry', 'raspberry', 'blackberry', 'blueberry', 'gooseberry', 'cranberry', 'currant', 'quince'],
    ...['rhubarb', 'pineapple', 'orange', 'lemon'],
  ],
  apple: ['crab apple', 'applesauce'],
  peach: ['nectarine'],
  bean: ['lima bean', 'pea'],
  'winter squash': ['pumpkin'],
  greens: ['spinach'],
  tomato: ['green tomato', 'paste'],
  meat: ['beef', 'pork', 'lamb', 'veal', 'venison', 'bear', 'sausage'],
  beef: ['meat', 'pork', 'lamb', 'veal', 'venison', 'bear', 'sausage'],
  chicken: ['rabbit', 'turkey', 'duck', 'goose', 'poultry', 'meat'],
  'meat stock': ['chicken', 'beef', 'turkey', 'meat', 'soup'],
  lemon: ['lime'],
  mushroom: [],
};
