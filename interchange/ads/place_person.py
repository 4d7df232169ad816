"""Names of people in an ad: a seller called Lamar or Otto is not the town of that name."""

from __future__ import annotations

import re

from interchange.ads.fields import Span

PERSON = "perhaps a person's name"
"""The note of a guess that may be a person: it is a town only where the telephone is of that state."""

_NAME = r"[A-Z][^\W\d_'’]{1,20}(?:['’][A-Z][^\W\d_]{1,20})?"
_FULL = rf"(?:(?:Mr|Mrs|Ms|Dr|Miss|[A-Z])\.?[ ])?{_NAME}(?:[ ](?:[A-Z]\.[ ])?{_NAME}){{0,2}}"
# After these words stands whom to ask, not where to go.
_ASK = re.compile(
    r"(?<![\w'’])(?:(?i:contact(?:[ ](?:info(?:rmation)?|name|person))?|(?:ask|asks|asking|call|look)[ ]for|(?:talk"
    r"|speak|write|mail"
    r"|e-?mail|message|sell|belongs|belonged|apply|reply|thanks|best[ ]offer)[ ]to|call|ring|phone|text|tel|telephone|mob(?:ile)?"
    r"|cell|e-?mail|message|pm|dm|mail|see|ansprechpartner|kontakt|contacter|attn|c/o|posted[ ]by|listed[ ]by|sold[ ]by"
    r"|submitted[ ]by|name|owner|agent|rep|salesman|auctioneer|clerk|my[ ]name[ ]is|this[ ]is|name'?s|signed|yours"
    r"|regards|greetings|greets|cheers"
    r"|sincerely|cordially|respectfully|truly|thanks|thank[ ]you|love|best|grüße|gruß|groeten|cordialement|mvh|hilsen|saludos"
    r"|pozdrawiam|sent[ ]from|neighbou?r|friend|uncle|cousin|brother|son|grandson|husband|wife|dad|nephew|buddy|boss|mr|mrs))"
    r"(?:[ ](?i:me|or|now|text|and|call|at|only|first|on)){0,2}"
    rf"[ \t]{{0,2}}[,:;#–—-]{{0,2}}[ \t\n]{{1,4}}(?P<name>{_FULL})(?![ ]?,[ ](?:[A-Z]{{2}}|[A-Z][a-z]+)\b)"
)
# A line that is a speaker's turn ("Dale H: got a ..."), or a name over a farewell.
_SPEAKER = re.compile(rf"(?:^|\n)(?P<name>{_NAME}(?:[ ][A-Z][a-z]*\.?)?)[ ]?(?:\([^)\n]{{1,20}}\))?:[ ]")


def persons(text: str) -> tuple[Span, ...]:
    """Where the names of people stand: whom to ask for, who signs, who speaks, and a first name with what follows it."""
    found = [Span(*match.span("name")) for pattern in (_ASK, _SPEAKER) for match in pattern.finditer(text)]
    found += [
        Span(*match.span())
        for match in _FIRST_AND_LAST.finditer(text)
        if match["first"] in FIRST_NAMES and match["last"].lower() not in _TOWN_WORDS
    ]
    found += [Span(*match.span("name")) for match in _INITIALS.finditer(text)]
    return tuple(found)


def is_first_name(word: str) -> bool:
    """Whether a word is a common first name, as a person writes it: in capitals or with one."""
    return word.title() in FIRST_NAMES and not word.islower()


_FIRST_AND_LAST = re.compile(rf"(?<![\w'’-])(?P<first>[A-Z][a-z]{{1,12}})[ ](?:[A-Z]\.[ ])?(?P<last>{_NAME})(?![\w'’-])")
_INITIALS = re.compile(rf"(?<![\w'’.-])(?P<name>[A-DF-MO-RT-VX-Z]\.[ ]?(?:[A-Z]\.[ ]?)?{_NAME})")  # N., S., E. and W. begin towns
_TOWN_WORDS = frozenset([
    "city", "town", "lake", "park", "creek", "center", "springs", "falls", "river", "hill", "hills", "grove", "valley", "ville",
    "station", "junction", "beach", "bay", "island", "ridge", "heights", "mills", "county", "parish", "township", "area",
    "harbor", "landing", "point", "corner", "corners", "bluff", "prairie", "summit", "fork", "forks", "cross", "crossing",
])  # fmt: skip
# Common first names, from memory; those better known as towns (Austin, Dallas, Jackson, Lincoln, Troy) are left out.
_FIRST_NAMES = """
    Aaron Abe Abby Abigail Adam Al Alan Albert Alex Alexander Alice Allan Allen Amanda Amber Amos Amy Andre Andrea Andrew
    Andy Angela Angie Ann Anna Anne Annie Anthony Antonio Arlene Arlo Arnie Arnold Art Arthur Arvid Barb Barbara Barney
    Barry Bart Becky Ben Benjamin Bernard Bernice Bernie Bert Beth Betty Beverly Bill Billy Bob Bobby Bonnie Brad Bradley
    Brandon Brenda Brent Brett Brian Bruce Bruno Bryan Bud Buddy Burt Butch Calvin Carl Carlos Carol Caroline Carolyn
    Catherine Cathy Cecil Chad Charles Charlie Cheryl Chet Chris Christina Christine Christopher Chuck Cindy Clara Clarence
    Clark Claude Clay Clayton Cliff Clifford Clint Clyde Cody Colleen Connie Corey Cory Craig Curt Curtis Dale Dan Dana
    Daniel Danny Darlene Darrell Darren Darryl Dave David Dawn Dean Deb Debbie Deborah Delbert Dell Della Denise Dennis
    Derek Diana Diane Dick Dieter Don Donald Donna Doris Dorothy Doug Douglas Duane Dustin Dwayne Dwight Earl Ed Eddie Edgar
    Edith Edna Edward Edwin Eileen Elaine Eleanor Eli Elizabeth Ella Ellen Elmer Elsie Elwood Emil Emily Emma Emmett Eric
    Erica Erik Ernest Ernie Ervin Esther Ethan Ethel Eugene Eva Evelyn Everett Floyd Frances Francis Frank Franz Fred Freddy
    Frederick Fritz Gail Garth Gary Gene George Gerald Gerry Gertrude Gil Gilbert Gina Ginny Giovanni Glen Glenn Gloria
    Gordon Grace Grant Greg Gregory Greta Gus Guy Hal Hank Hannah Hans Harlan Harold Harriet Harry Harvey Hazel Heather
    Hector Heidi Heinz Helen Henk Henry Herb Herbert Herman Homer Horst Howard Hubert Hugh Ian Ida Ike Ingrid Ira Irene Irma
    Irv Irvin Irwin Isaac Ivan Jack Jacob Jake James Jamie Jan Jane Janet Janice Jared Jason Jay Jean Jeff Jeffrey Jenna
    Jennifer Jenny Jeremy Jerome Jerry Jesse Jessica Jesus Jill Jim Jimmy Joan Joann Joanne Joe Joel Johan Johann John
    Johnny Jon Jonathan Jordan Jorge Jose Joseph Josh Joshua Joyce Juan Judith Judy Julia Julie June Jürgen Justin Karen
    Karin Karl Kate Katherine Kathleen Kathy Katie Keith Kelly Ken Kenneth Kenny Kevin Kim Klaus Kristin Kurt Kyle Lamar
    Lars Larry Laura Lauren Laurie Lawrence Lee Len Leo Leon Leonard Leroy Leslie Lester Lila Lillian Linda Lisa Lloyd Lois
    Lonnie Lora Loren Lorraine Louie Louise Lucas Lucille Lucy Luis Luke Luther Lyle Lynn Mabel Mack Macka Macca Mae Manny
    Manuel Marc Marcia Marco Marcus Margaret Marge Margie Maria Marie Marilyn Mario Marjorie Mark Marlene Martha Martin
    Marty Marv Marvin Mary Mathew Matt Matthew Maurice Max May Megan Mel Melanie Melissa Melvin Merle Michael Michele
    Michelle Miguel Mike Mildred Milo Milt Milton Mindy Minnie Mitch Mitchell Molly Monica Morris Myra Myrna Myron Myrtle
    Nancy Nate Nathan Neal Ned Neil Nell Nellie Nels Nelson Nicholas Nick Nicole Noah Nora Norm Norma Norman Norris Ola Olaf
    Olive Oliver Opal Ora Orville Oscar Otis Otto Owen Pablo Pam Pamela Pat Patricia Patrick Patty Paul Paula Pauline Pedro
    Peggy Percy Perry Pete Peter Phil Philip Phillip Phyllis Piet Pierre Rachel Ralph Ramon Randall Randy Ray Raymond
    Rebecca Reggie Reinhold Rex Rhonda Ricardo Rich Richard Rick Ricky Rita Rob Robert Roberta Robin Rod Rodney Roger Roland
    Rolf Ron Ronald Ronnie Roscoe Rose Rosemary Ross Roy Ruben Ruby Rudy Russ Russell Rusty Ruth Ryan Sadie Sally Sam
    Samantha Samuel Sandra Sandy Sara Sarah Scott Sean Seth Shane Shannon Sharon Shawn Sheila Shelby Shelly Sherry Shirley
    Sid Silas Simon Sonny Sophie Stacey Stacy Stan Stanley Stefan Stella Stephanie Stephen Steve Steven Stewart Stu Stuart
    Sue Susan Suzanne Sven Sylvia Tammy Tara Ted Teresa Terry Thad Thelma Theo Theodore Theresa Thomas Tiffany Tim Timothy
    Tina Todd Tom Tommy Tony Tracy Travis Trent Trevor Tyler Ursula Val Valerie Vaughn Vera Verna Vern Vernon Vicki Vicky
    Vince Vincent Viola Virgil Vivian Wade Wally Walt Walter Wanda Ward Wayne Wendell Wendy Wes Wesley Wilbur Wilfred Will
    Willard Willie Willis Wilma Wim Winston Wyatt Yvonne Zach Zack Zeke
"""
FIRST_NAMES = frozenset(_FIRST_NAMES.split())
