package rakelight.person;

import java.util.Arrays;
import java.util.Collections;
import java.util.HashSet;
import java.util.Set;

/**
 * Words of inscriptions, folded, class by class. From practice, no source; only what changes a
 * reading is listed.
 */
final class PersonWords {
  /** Before a name. */
  static final Set<String> TITLES =
      words(
          "mr mrs miss mstr master dr doct sp4 doctr rev revd reverend sir dame lady lord hon honble honourable "
              + "honorable elder deacon dea deac right very most ven venerable bishop archdeacon canon "
              + "fr father sister sr bro brother mother prof professor judge sqr squire capt captn captain "
              + "tpr lieutt fusilier conductor l/cpl l/sgt capn lieut lt lieutenant ensign col colonel lieutcol ltcol major maj genl gen general "
              + "sergt sgt serjt sergeant serjeant corpl corp cpl corporal lcpl pvt private pte rifleman "
              + "pfc guardsman sapper gunner driver trooper drummer bombardier bdr cadet commander comr cdr "
              + "commodore admiral boatswain midshipman stoker ordinary able aircraftman airman flight "
              + "pilot officer flying squadron leader quartermaster qmr surgeon comdr cornet adjutant "
              + "adjt alderman ald dowager viscount viscountess baron baroness earl countess provost bailie "
              + "justice don madam madame mme ms messrs widow goodman goodwife councillor cllr");

  /** Titles that are a rank under arms or at sea. */
  static final Set<String> RANKS =
      words(
          "pvt tpr lieutt sp4 sp5 sfc msgt fusilier conductor l/cpl l/sgt pfc t/sgt s/sgt m/sgt cpt tsgt ssgt amn seaman private pte corpl corp cpl corporal lcpl sergt sgt serjt sergeant serjeant gunner driver "
              + "trooper drummer lieut lt lieutenant capt captain captn capn major maj col colonel ensign "
              + "rifleman guardsman sapper bombardier bdr cornet general genl gen admiral commodore "
              + "commander cdr comdr midshipman stoker airman aircraftman quartermaster boatswain adjutant "
              + "adjt cadet musician bugler farrier");

  /** After a name. */
  static final Set<String> SUFFIXES =
      words(
          "gent gentleman esq esqr esqre esquire junr junior senr senior jr sr jun sen md dd bart bt ma am ba ab "
              + "bd lld phd mrcs frcs frs fsa jp mp kc qc dl kcb cb obe mbe cbe mc mm dso dsc dfc dcm vc rn rm "
              + "rnr rnvr raf usn usa usmc arm ii iii knt kt sj osb osf generosi generosus armigeri armiger clerici clericus pp cc");

  /** What somebody was, beside soldiers. */
  static final Set<String> OFFICES =
      words(
          "minister judge rector vicar pastor curate master mate incumbent preacher chaplain priest commander governor "
              + "mayor sheriff magistrate warden churchwarden professor president secretary treasurer inspector "
              + "superintendent manager director fellow headmaster prebendary chancellor dean canon archdeacon bishop "
              + "member keeper engineer harbourmaster overseer collector comptroller founder proprietor");

  /** Trades, after a name or a place and a comma, on a line of their own, or after {@code a}. */
  static final Set<String> OCCUPATIONS =
      words(
          "mariner seaman sailor fisherman pilot shipwright shipbuilder shipmaster shipowner ropemaker "
              + "sailmaker boatbuilder boatman waterman bargeman ferryman whaler surgeon physician dentist "
              + "apothecary druggist chemist merchant grocer draper mercer haberdasher chandler baker butcher "
              + "tenent contractor brewer maltster distiller innkeeper innholder publican victualler vintner farmer yeoman "
              + "husbandman grazier drover cowkeeper dairyman gardener nurseryman shepherd forester gamekeeper "
              + "huntsman groom coachman carrier carter waggoner miller millwright engineer carpenter joiner "
              + "cabinetmaker turner sawyer cooper wheelwright coachmaker blacksmith smith whitesmith "
              + "locksmith gunsmith goldsmith silversmith ironmonger ironmaster founder nailer cutler tinsmith "
              + "tinman mason stonemason bricklayer builder slater thatcher plasterer glazier plumber painter "
              + "printer bookbinder bookseller stationer weaver spinner fuller dyer clothier woolstapler "
              + "stockinger hosier glover tailor taylor hatter shoemaker cordwainer bootmaker tanner currier "
              + "saddler collarmaker harnessmaker clockmaker watchmaker instrumentmaker potter glassmaker "
              + "papermaker basketmaker teacher schoolmaster schoolmistress governess attorney solicitor lawyer "
              + "counsellor barrister notary clerk sexton organist schoolteacher preceptor auctioneer surveyor "
              + "architect sculptor artist banker agent factor steward bailiff constable policeman postmaster "
              + "miner collier pitman quarryman tinner labourer servant housekeeper butler cook nurse midwife "
              + "soldier pensioner lighthousekeeper lightkeeper stationmaster guard planter squatter "
              + "prospector digger tobacconist hairdresser barber musician author poet editor "
              + "ironfounder shopkeeper milliner dressmaker laundress tenant tacksman crofter portioner feuar writer "
              + "baillie provost advocate cottager hind ploughman beadle parishclerk "
              + "veterinary engraver confectioner tobacconist optician jeweller draughtsman foreman overseer "
              + "storekeeper stockman bullockdriver overlander stationowner sealer bushman shearer puddler furnaceman "
              + "cowman wagoner ostler postboy turnpike toll signalman platelayer railwayman porter fireman stoker "
              + "lamplighter chimneysweep scavenger hawker pedlar huckster tinker vintner maltman skinner flesher "
              + "wright dyker quarrier slatequarrier lead-miner flaxdresser heckler bleacher calicoprinter "
              + "manufacturer shipbroker broker clothdresser cloth-dresser wool-sorter fellmonger cheesemonger "
              + "fishmonger costermonger headmaster headmistress whaleman missionary doctor bricklayer "
              + "burgess burges bvrges burgis burges medicus constable sub-constable subconstable const student tailzeor "
              + "tailyeour litster webster cordiner wobster baxter");

  /** What somebody was that is no trade and no name. */
  static final Set<String> CONDITIONS =
      words("citizen spinster bachelor widow widower gentlewoman batchelor twin twins orphan");

  /** After these a name may follow. */
  static final Set<String> FORMULA_ENDS =
      words(
          "also and & of to am hefyd here rests resteth our interrd interred lyes lies lieth lyeth "
              + "boy memory memoriam remembrance likewise beneath");

  /** Capitalised or not, no part of a name. */
  static final Set<String> NEVER_A_NAME =
      words(
          "the ye our in of who his her he she they their and also to here sacred erected memory "
              + "memoriam loving affectionate remembrance died dyed born aged age ae aet aetatis aetat aetas "
              + "ob obt obiit departed life at on for wife son daughter dau relict widow consort children infant "
              + "lost co like till until as that this interrd interred lyes lies lieth lyeth body removed by him "
              + "not gone three two buried married beloved anno these with from husband spouse mother father "
              + "sister brother sons daughters first second third only eldest youngest erected inst ult nee "
              + "beneath drowned killed is was were be been are a an or but no nor so if which where when what "
              + "there then than thy thou thee thine my me we us you your it its i o oh jesus christ god lord "
              + "amen rest resting rests peace sleep sleeps asleep fell passed away entered into farewell adieu "
              + "blessed hic iacet jacet situs est sepultus sepulta memoriae sacrum requiescat qui quae uxor "
              + "obijt natus nata vixit annos mensis die dies suae suis domini above said aforesaid named former "
              + "latter both all whom whose upon under near underneath late formerly alias otherwise having "
              + "until after before over out up down through years year months month days day weeks week hours "
              + "yrs mos royal family dear dearly deeply sadly missed mourned heaven heavenly ever forever "
              + "grandad grandma granddad grandpa nan nana gran granny mum mummy dad daddy "
              + "er cof am always never gone home thine will done safe arms remember stone tomb monument placed tribute "
              + "native late ship brig schooner regiment regt corps army navy force "
              + "id kal cal ides kalends kalendas idus nonas wanting name perpetuate siste viator alhier universally accidentally suddenly peacefully tragically unexpectedly quietly buryed burying ground hier ruht "
              + "gorphwysfa coffadwriaeth viz bu fu farw mlwydd oed yn hefyd ei briod priod gwraig wraig mab merch ac serchus "
              + "gof mewn hedd gorffwys annwyl inscribed affectionately memories treasured uxoris "
              + "reunited rip ihs hse ms afsd saint st professed converted baptized baptised christened ordained religion veteran soldier served reunited "
              + "fever cholera consumption mom ma pa babes girl nanna settler settlers emigrated emigrant perished "
              + "community religious mei overl geb sometime afterwards ly dockyard customs four five six seven "
              + "eight nine ten eleven twelve himself herself themselves though although because since therefore "
              + "missing presumed believed remarried removed grandfather grandmother aunt uncle cousin nephew niece "
              + "grandson granddaughter");

  /** Related by marriage. */
  static final Set<String> SPOUSES =
      words(
          "wife wifes wyf wyfe spous spovs spouss spows uxoris briod priod gwraig wraig husband husbands relict relick widow widower consort spouse wives partner helpmate "
              + "helpmeet bride companion uxor conjux conjunx coniux vidua relicta maritus");

  /** Related by marriage, and outlived the other. */
  static final Set<String> SURVIVORS = words("relict relick widow widower vidua relicta");

  static final Set<String> CHILDREN =
      words(
          "daughter dau daur daughr daugr daught dautr daughtr dauter doughter doghter daugh son sonne sonn sons daughters daus child children infant "
              + "infants twins bairns offspring baby babe filius filia filii stepson stepdaughter mab merch");

  static final Set<String> PARENTS =
      words("mother mom father parents pater mater mum mummy dad daddy mam papa mama");

  /** Several persons at once. */
  static final Set<String> PLURALS =
      words(
          "sons daughters daus children family issue infants twins wives parents bairns brothers sisters grandchildren "
              + "grandsons granddaughters grandparents");

  /** Relations. */
  static final Set<String> KIN =
      all(
          SPOUSES,
          CHILDREN,
          PARENTS,
          words(
              "sister brother pop mom sisters brothers family issue mum mummy dad daddy mam nan nana nanna gran granny grandma "
                  + "grandad granddad grandpa papa mama grandson grandsons granddaughter granddaughters grandchild "
                  + "grandchildren grandmother grandfather grandparents nephew niece uncle aunt cousin "
                  + "soninlaw daughterinlaw motherinlaw fatherinlaw brotherinlaw sisterinlaw son-in-law "
                  + "daughter-in-law mother-in-law father-in-law brother-in-law sister-in-law fiance fiancee "
                  + "ward guardian stepmother stepfather"));

  /** Relations that only a woman has, and only a man. */
  static final Set<String> WOMENS =
      words(
          "wife wifes relict relick widow spouse consort wives bride daughter dau daur daughr daugr daught dautr daughtr dauter doughter doghter "
              + "daugh daughters daus mother mater sister sisters granddaughter granddaughters grandmother niece aunt "
              + "uxor vidua relicta filia mum mummy mom mam mama nan nana nanna gran granny grandma daughterinlaw motherinlaw sisterinlaw daughter-in-law mother-in-law "
              + "sister-in-law fiancee stepdaughter stepmother");

  static final Set<String> MENS =
      words(
          "husband husbands widower maritus son sonne sonn sons father pater brother brothers grandson grandsons "
              + "grandfather nephew uncle filius dad daddy papa pop grandad granddad grandpa soninlaw fatherinlaw brotherinlaw son-in-law father-in-law "
              + "brother-in-law fiance stepson stepfather");

  /** May lead a relation. */
  static final Set<String> KIN_BEFORE =
      words(
          "his her their ei annwyl the ye said first second third fourth fifth 1st 2d 2nd 3d 3rd 4th beloved belovd infant "
              + "only eldest oldest elder younger youngest dear dearly loving loved affectionate late twin adopted "
              + "still stillborn surviving amiable devoted darling dearest faithful sole esteemed virtuous "
              + "lamented natural aforesaid former formerly onely once deceased sixth seventh eldr yngst "
              + "young little baby much precious cherished respected sometime 5th 6th 7th lawful lawfull wedded "
              + "then unmarried excellent honoured our my your two three four five six seven following");

  /** Of these one stands for a person spoken of before. */
  static final Set<String> POSSESSORS = words("his her their ei");

  /** End the name of a unit. */
  static final Set<String> ARMS =
      words(
          "inf infty infantry cav cavalry art arty artillery rifles regt regiment vols vol volunteers battn batt bn "
              + "battalion engineers foot dragoons hussars lancers fusiliers highlanders marines militia guards "
              + "pioneers sikhs gurkhas sepoys ni fuzileers constabulary fencibles navy corps force yeomanry borderers grenadiers rangers sappers squadron brigade light "
              + "horse rifle reserve reserves sharpshooters division div camerons cameronians airborne command soldier "
              + "battery forces seaforths gunners lifeguards grenadier reg regmt rgt vol service");

  /** Of those that also are common words, and need a unit's other words beside them. */
  static final Set<String> WEAK_ARMS =
      words("foot light horse force vol service reserve art reg gunners div soldier command");

  /** Lead a war's name, or are it. */
  static final Set<String> WAR_WORDS = words("war wars revolution rebellion");

  /** Wars called by a country. */
  static final Set<String> WARS = words("korea vietnam waterloo crimea wwi wwii ww1 ww2");

  /** Go before the name of a ship. */
  static final Set<String> SHIPS =
      words(
          "ship brig brigantine schooner sloop barque bark steamer smack lugger yacht hms ss trawler cutter");

  /** Say that a body lies here. */
  static final Set<String> LYING =
      words(
          "lyes lies lieth lyeth rests resteth interrd interred deposited buried lays iacet jacet situs sita");

  /** Say before a name that its bearer is dead. */
  static final Set<String> MEMORY = words("memory memoriam remembrance memorie memoriae mem memy");

  /** Of the formulas around facts. */
  static final Set<String> FORMULA =
      all(
          FORMULA_ENDS,
          MEMORY,
          LYING,
          words(
              "er cof am vault lot plot family property the ye y in of body bodies sacred sacrd erected loving ever affectionate fond dear this "
                  + "stone tomb monument headstone grave cross tablet is was are were by his her their who whom "
                  + "departed life that which also and underneath under lie remains mortal all what mortall near "
                  + "place spot burial vault vavlt family crew lair tribute respect here hear heere hic est "
                  + "sepultus sepulta corpus reliquiae raised placed aforesaid aforesd above said named to "
                  + "both perpetual grateful cherished treasured proud glorious honour honor precious happy "
                  + "sweet constant everlasting pious pray prayers charity soul souls repose for please at "
                  + "with them him it ihs rip hse iacet jacet sacrum ms dom amdg lds sttl deo gloria an etiam "
                  + "et item hoc sub lapide requiescit anima cujus subtus siti gone before "
                  + "viz vizt namely burying ground hier ruht gorphwysfa cof coffadwriaeth annwyl serchog am "
                  + "dedicated set up hereunder hereby hereon lyeing lying lieing lyethe interd entombed "
                  + "inhumed reposes repose deposited dust beneath within memento mori then likewise thanks "
                  + "praise glory god ad dei maiorem joint owners property commemorate inscribed affectionately "
                  + "memories babes girl serchus gof mewn hedd gorffwys heddwch"));

  /** Begin a new person, or another clause of the same. */
  static final Set<String> JOINS =
      words("also and & hefyd likewise item etiam et allso als alsoe with together");

  /** A line with one of these is running speech, or words of comfort. */
  static final Set<String> SPEECH =
      words(
          "the of in and a an is are was were be been his her he she him my thy thou thee we us our "
              + "they them not but no nor so yet till until shall will who when where that this "
              + "these to with from for on at by as like such all ye it its i me gone home rest "
              + "asleep peace heaven forgotten come");

  /** Words that verse and words of comfort are made of, beside those of {@link #SPEECH}. */
  static final Set<String> COMFORT =
      words(
          "god lord jesus christ saviour redeemer father mother dear dearest beloved soul souls spirit angels angel "
              + "heavenly eternal eternity everlasting bliss joy love loved loving sleep sleeps sleeping rests "
              + "weep mourn grief sorrow tears tear pain pains sick sickness death deaths life live lived lives "
              + "grave tomb dust earth clay world grace mercy faith hope charity blessed bless glory glorious "
              + "light dark night day days morning morn dawn shore sea wave storm flower flowers bud rose lily "
              + "crown cross thorns wear lay sweet sweetly soft gentle calm safe arms hand hands heart hearts "
              + "friend friends friendship farewell adieu remember reader stranger passenger passing pass stop "
              + "stay prepare follow think once now soon here there how why what oh o ah ever never always again "
              + "meet met part parted parting reunited together above below long short time hour cold warm young "
              + "old age youth beauty virtue virtuous honest honesty man woman child children wife husband "
              + "great good kind kindness tender worth noble just pure truth true memory remembered lost sadly "
              + "sorely missed miss mourned regretted lamented thine done done way truth resurrection perfect "
              + "fought fight finished course kept shepherd want know knew known sees see saw taken took gave give "
              + "given away calls called call voice silent silence lies beneath stone watch wait waits waiting "
              + "trust trusted humble peaceful suffered suffering patience bore borne affliction afflictions "
              + "physicians vain till ease if more than most too well only every each o'er oer ere tis twas "
              + "sunshine shade rich poor king kings home born die dies died beautiful wonderful simply thy come "
              + "blood lamb washed judge judgment trumpet sound rise risen raised arise quickly awake wake let "
              + "make made makes left behind darling baby little treasured memories thoughts forget hath doth "
              + "had has have did do does may might can could would should must am been dwell far beyond "
              + "nearer until daybreak break shadows flee loves labour rest rested resting sky skies star stars "
              + "cometh goeth giveth doeth shineth per ardua ad astra pro patria mori dulce decorum semper fidelis spes salus requiescat pace "
              + "spring summer autumn winter leaf leaves tree trees vine early late fair fairest bloom bloomed "
              + "faded fade gathered garden her his though sight");

  /** Books of scripture as carved, and a chapter follows. */
  static final Set<String> SCRIPTURE =
      words(
          "gen genesis exod exodus lev num numbers josh joshua judg judges ruth ezra neh job psalm psalms ps "
              + "psa prov proverbs eccl eccles ecclus cant isa isaiah jer jeremiah lam ezek hos joel amos mic "
              + "micah hab zech mal malachi matt matthew mat mark luke john acts rom romans cor corinthians gal "
              + "galatians eph ephesians phil philippians col colossians thess tim timothy titus heb hebrews "
              + "james jas pet peter jude rev revelation revelations dan daniel deut sam samuel kings chron");

  /** At the foot, of who cut the stone. */
  static final Set<String> MAKERS =
      words(
          "sculpt sculp sculpsit sculptor sculptors fecit sc scul maker makers masons mason engraver engravd "
              + "stonecutter statuary carver monumental monumentalist marble works undertaker invt delt cut");

  /** Do something for a stone, after which {@code by} and a name follow. */
  static final Set<String> SETTING_UP =
      words(
          "erected est placed raised dedicated set presented given donated provided restored renewed put subscribed "
              + "inscribed caused executed inserted");

  /** Mourn, after which {@code by} and names follow. */
  static final Set<String> MOURNING =
      words(
          "missed mourned lamented regretted remembered loved survived cherished beloved wept sorrowing treasured "
              + "forgotten");

  /** End a place: what follows it is told of the person again. */
  static final Set<String> MONTHS_AND_EVENTS =
      words(
          "january february march april june july august september october november december jan feb mar apr jun "
              + "jul aug sep sept oct nov dec jany feby augt septr octr novr decr obiit ob aet aetatis aged died "
              + "born who aet ae");

  /** What holds an inscription together; only these are seen in a word of a face without doubt. */
  static final Set<String> KEYWORDS =
      words(
          "died dyed born buried departed deceased interred married drowned killed aged years year months month "
              + "weeks days hours wife husband son daughter children widow relict consort infant mother father "
              + "sister brother beloved sacred memory loving remembrance erected here lies lieth lyeth body also "
              + "this life above said likewise obiit aetatis native late with remains affectionate departd january "
              + "february march april june july august september october november december");

  /** Words that a worn word may be though the stones counted never had them. */
  static final Set<String> OF_INSCRIPTIONS =
      all(
          FORMULA,
          KIN,
          SPEECH,
          COMFORT,
          TITLES,
          RANKS,
          SUFFIXES,
          OFFICES,
          OCCUPATIONS,
          CONDITIONS,
          ARMS,
          SHIPS,
          SCRIPTURE,
          MAKERS,
          SETTING_UP,
          MOURNING,
          words(
              "obt ob obiit obijt dec decd deceasd decest dep dept departd dyd expired bur buryed burd marrd wed né "
                  + "nee alias formerly viz vizt aet ae aetat aetatis geb gest ano anno dom lost killed slain fell "
                  + "yeare yeares yeers monthes dayes weekes yeeres moneths mo mos mths wks wk dys ds hrs hr yr yrs one two three four five six seven eight nine ten eleven twelve "
                  + "thirteen fourteen fifteen sixteen seventeen eighteen nineteen twenty thirty forty fifty sixty "
                  + "seventy eighty ninety score hundred first second third fourth fifth sixth seventh eighth ninth "
                  + "tenth eleventh twelfth thirteenth fourteenth fifteenth sixteenth seventeenth eighteenth "
                  + "nineteenth twentieth thirtieth inst ult instant ultimo"),
          words(
              "died dyed born departed deceased interred married drowned killed aged age years year months month "
                  + "weeks days hours infant above said likewise obiit aetatis native late formerly departd "
                  + "january february march april may june july august september october november december "
                  + "jan feb mar apr jun jul aug sep sept oct nov dec jany feby augt septr octr novr decr"));

  private PersonWords() {}

  @SafeVarargs
  static Set<String> all(Set<String>... sets) {
    Set<String> all = new HashSet<>();
    for (Set<String> set : sets) {
      all.addAll(set);
    }
    return Collections.unmodifiableSet(all);
  }

  static Set<String> words(String list) {
    return Collections.unmodifiableSet(new HashSet<>(Arrays.asList(list.split(" +", -1))));
  }
}
